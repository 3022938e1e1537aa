import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: 'src/app',
  // Relative addresses, so that the built folder works from any path of any server.
  base: './',
  plugins: [react()],
  // See src/speech/hearing/native-blob.ts.
  resolve: { alias: { 'blob-polyfill': `${import.meta.dirname}/src/speech/hearing/native-blob.ts` } },
  worker: { format: 'es' },
  build: { outDir: '../../dist', emptyOutDir: true, target: 'es2023', sourcemap: true, chunkSizeWarningLimit: 1500 },
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
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: 'browser',
          root: import.meta.dirname,
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 180_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
