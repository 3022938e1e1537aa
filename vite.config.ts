import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import react from '@vitejs/plugin-react';
import { build as esbuild } from 'esbuild';
import { renderUnicodeCompact } from 'uqr';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { openingsInPage } from './src/app/openings-in-page.ts';
import { parseProcedure } from './src/procedure/parse.ts';
import { problemText } from './src/procedure/problem.ts';

/**
 * What the page may do. No script but its own files and WebAssembly. Styles may stand in the page, because the editor and the pictures of
 * the review bring theirs along. Any https address may be connected to, because a person may name a record store of their own; nothing
 * is sent anywhere before they do.
 */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "media-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self' data: blob: https: http://localhost:* http://127.0.0.1:*",
  "worker-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "object-src 'none'",
].join('; ');

/** For any server that hands out the built folder. Only a header can forbid framing. */
const headers = {
  'Content-Security-Policy': `${contentSecurityPolicy}; frame-ancestors 'none'`,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'microphone=(self), camera=(self), geolocation=(), payment=()',
};

/** The built page carries its policy, whoever serves it. The development server needs scripts of its own in the page. */
const policyInPage: Plugin = {
  name: 'policy-in-page',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy }, injectTo: 'head-prepend' },
  ],
};

/** What stands until the script has come. The development server shows the start page's top in English, having no script before the page. */
const openingsOfScreens: Plugin = {
  name: 'openings-of-screens',
  transformIndexHtml: async (html) => html.replace('<!-- openings -->', await openingsInPage()),
};

const beforePaint: Plugin = {
  name: 'before-paint',
  apply: 'build',
  enforce: 'post',
  async generateBundle(_, bundle) {
    const entry = `${import.meta.dirname}/src/app/before-paint.ts`;
    const built = await esbuild({ entryPoints: [entry], bundle: true, minify: true, format: 'iife', target: 'es2023', write: false });
    const source = built.outputFiles[0]?.contents;
    const page = bundle['index.html'];
    if (source === undefined || page?.type !== 'asset') throw new Error('index.html and before-paint.ts make no page');
    const file = this.getFileName(this.emitFile({ type: 'asset', name: 'before-paint.js', source }));
    page.source = page.source
      .toString()
      .replace('<title>', `<script src="./${file}"></script>\n    <title>`)
      // What is painted first waits for the small script and not for the app: on a slow line the app must not take its share.
      .replace(/<script type="module"(?=[^>]*\/first-)/u, '<script type="module" fetchpriority="low"');
  },
};

/** The style sheet of the first screen stands in the page itself: no second request before anything can be painted. */
const styleInPage: Plugin = {
  name: 'style-in-page',
  apply: 'build',
  enforce: 'post',
  generateBundle(_, bundle) {
    const page = bundle['index.html'];
    if (page?.type !== 'asset' || typeof page.source !== 'string') throw new Error('index.html is not in the bundle');
    page.source = page.source.replace(/<link rel="stylesheet"[^>]*href="\.\/([^"]+)"[^>]*>/gu, (_link, file: string) => {
      const sheet = bundle[file];
      if (sheet?.type !== 'asset') throw new Error(`${file} is not in the bundle`);
      return `<style>${sheet.source.toString()}</style>`;
    });
  },
};

/** `procedure.yaml?label`: the title page of a procedure that ships, read when the app is built. One that does not read fails the build. */
const labelsOfProcedures: Plugin = {
  name: 'labels-of-procedures',
  load(id) {
    const [path = '', query] = id.split('?');
    if (query !== 'label' || !path.endsWith('.yaml')) return null;
    this.addWatchFile(path);
    const name = basename(path);
    const parsed = parseProcedure(readFileSync(path, 'utf8'), name);
    if (!parsed.ok) throw new Error(parsed.problems.map(problemText).join('\n'));
    const { id: own, title, vehicle, language, builds } = parsed.file;
    return `export default ${JSON.stringify({ name, id: own, title, vehicle, language, builds: [...builds] })};`;
  },
};

/** With `--host`: the way to a phone, as a code in the terminal, and the addresses for the page to show. */
const wayToThePhone: Plugin = {
  name: 'way-to-the-phone',
  configurePreviewServer(server) {
    server.middlewares.use('/phone.json', (_, response) => {
      response.setHeader('Content-Type', 'application/json');
      response.end(JSON.stringify(server.resolvedUrls?.network ?? []));
    });
    server.httpServer.once('listening', () => {
      // Vite fills in the addresses right after this event.
      setTimeout(() => {
        for (const address of server.resolvedUrls?.network ?? [])
          server.config.logger.info(`\n${renderUnicodeCompact(address)}\n  ${address}`);
      }, 0);
    });
  },
};

/** A certificate and its key, where a phone is to use the microphone over the network: see the README. */
const { UNDERTRAY_CERTIFICATE: certificate, UNDERTRAY_KEY: key } = process.env;
const https = certificate === undefined || key === undefined ? {} : { https: { cert: readFileSync(certificate), key: readFileSync(key) } };

/** Tests that play sound and listen to it in real time: one at a time, or the machine is too slow for them. */
const heard = ['speech-parts', 'spoken-job', 'enrol', 'web-speech', 'offline', 'safe'].map((name) => `tests/browser/${name}.test.ts`);

/**
 * Chromium without a screen now and then makes no frame of a page any more (nothing on it can be pressed, and it never says why); a test
 * that this happens to is done once more. Whatever else fails a test fails it at once.
 */
const retry = {
  count: 1,
  condition: /attempting \w+ action(?:\s|\u001b\[\d*m)*- waiting for element to be visible, enabled and stable(?:\s|\u001b\[\d*m)*$/u,
};

export default defineConfig({
  root: 'src/app',
  // Relative addresses, so that the built folder works from any path of any server.
  base: './',
  plugins: [
    react(),
    policyInPage,
    styleInPage,
    openingsOfScreens,
    beforePaint,
    labelsOfProcedures,
    wayToThePhone,
    VitePWA({
      // A job must never be reloaded in the middle: the page asks before it takes a newer version.
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        name: 'Undertray',
        short_name: 'Undertray',
        description: 'A voice-driven, hands-free step assistant for long fastening jobs.',
        id: './',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#14171a',
        theme_color: '#14171a',
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        // Everything but the voice, which is two thirds of all bytes: the page fetches it last, into a cache of its own (src/app/device).
        globPatterns: ['**/*'],
        globIgnores: ['**/*.map', '**/flite-*.wasm', 'sw.js', 'workbox-*.js'],
        maximumFileSizeToCacheInBytes: 8_000_000,
        clientsClaim: true,
        runtimeCaching: [{ urlPattern: /\/flite-[^/]+\.wasm$/u, handler: 'CacheFirst', options: { cacheName: 'undertray-voice' } }],
      },
    }),
  ],
  // See src/speech/hearing/native-blob.ts.
  resolve: { alias: { 'blob-polyfill': `${import.meta.dirname}/src/speech/hearing/native-blob.ts` } },
  worker: { format: 'es' },
  build: {
    outDir: '../../dist',
    emptyOutDir: true,
    target: 'es2023',
    // Every browser that runs this target knows `modulepreload`.
    modulePreload: { polyfill: false },
    sourcemap: true,
    chunkSizeWarningLimit: 1500,
    // The first screen is one file: fifteen small ones wait for each other on a plain server.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'first', test: /src\/app\/main\.tsx$/u }] } } },
  },
  preview: { headers, ...https },
  server: { fs: { allow: ['../..'] } },
  test: {
    root: import.meta.dirname,
    projects: [
      {
        test: {
          name: 'unit',
          root: import.meta.dirname,
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          setupFiles: ['tests/same-examples.ts'],
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'browser',
          root: import.meta.dirname,
          include: ['tests/browser/**/*.test.ts'],
          exclude: heard,
          testTimeout: 120_000,
          hookTimeout: 180_000,
          retry,
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
      {
        test: {
          name: 'heard',
          root: import.meta.dirname,
          include: heard,
          testTimeout: 120_000,
          hookTimeout: 180_000,
          retry,
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
