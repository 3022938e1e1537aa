import { encode } from 'uqr';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { codeReader } from '../../../src/app/record/code-reader.ts';

const text = 'UT1:0123456789ABCDEF:1/3:%69 VD92EX0';
const scale = 5;

/** What a camera that looks straight at the code would see, as a canvas gives it. */
function pixels(of: string | null, width: number, height: number): ImageData {
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  const code = of === null ? [] : encode(of, { ecc: 'L', border: 4 }).data;
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      if (code[Math.floor(y / scale)]?.[Math.floor(x / scale)] === true) data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  return { data, width, height, colorSpace: 'srgb' };
}

/** A page without a screen: its only canvas shows the code. */
function onScreen(shown: string | null): { readonly drawn: number[][] } {
  const drawn: number[][] = [];
  const pen = {
    drawImage: (_: unknown, ...place: number[]) => drawn.push(place),
    getImageData: (_x: number, _y: number, width: number, height: number) => pixels(shown, width, height),
  };
  vi.stubGlobal('document', { createElement: () => ({ width: 0, height: 0, getContext: () => pen }) });
  return { drawn };
}

const video = (side: number) => ({ videoWidth: side, videoHeight: side }) as HTMLVideoElement;

function detector(detect: () => Promise<readonly { readonly rawValue: string }[]>, formats = ['qr_code']): void {
  vi.stubGlobal(
    'BarcodeDetector',
    class {
      static getSupportedFormats = () => Promise.resolve(formats);
      detect = detect;
    },
  );
}

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('reading codes off a picture', () => {
  it('is done in script where the browser knows no codes', async () => {
    onScreen(text);
    expect(await (await codeReader()).read(video(400))).toEqual([text]);
    onScreen(null);
    expect(await (await codeReader()).read(video(400))).toEqual([]);
  });

  it('makes large pictures smaller first, and reads nothing in a camera that shows nothing yet', async () => {
    const { drawn } = onScreen(null);
    const reader = await codeReader();
    await reader.read(video(1920));
    expect(drawn.at(-1)).toEqual([0, 0, 960, 960]);
    // Another size each time: one at which the decoder fails must not be the only one.
    for (let turn = 0; turn < 3; turn += 1) await reader.read(video(1920));
    expect(drawn.map((place) => place[2])).toEqual([960, 1280, 800, 960]);
    expect(await reader.read(video(0))).toEqual([]);
  });

  it('is left to the browser where it can', async () => {
    detector(() => Promise.resolve([{ rawValue: text }, { rawValue: 'another' }]));
    expect(await (await codeReader()).read(video(400))).toEqual([text, 'another']);
  });

  it.each([
    ['has the interface and not the service behind it', ['qr_code']],
    ['knows other codes only', ['ean_13']],
  ])('is done in script where the browser %s', async (_, formats) => {
    onScreen(text);
    detector(() => Promise.reject(new DOMException('no service', 'NotSupportedError')), formats);
    const reader = await codeReader();
    expect(await reader.read(video(400))).toEqual([text]);
    expect(await reader.read(video(400))).toEqual([text]);
  });
});
