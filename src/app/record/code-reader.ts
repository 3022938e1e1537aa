/** Finds QR codes in pictures: the browser's own detector where it knows them, otherwise a decoder in script, fetched when needed. */
export interface CodeReader {
  /** The texts of the codes in the picture. */
  read(picture: HTMLVideoElement): Promise<readonly string[]>;
}

interface Detector {
  detect(source: CanvasImageSource): Promise<readonly { readonly rawValue: string }[]>;
}

/** The Barcode Detection API (WICG), which the DOM types do not know yet. */
interface DetectorClass {
  new (options: { readonly formats: readonly string[] }): Detector;
  getSupportedFormats(): Promise<readonly string[]>;
}

export async function codeReader(): Promise<CodeReader> {
  const detector = await ownDetector();
  if (detector === null) return scriptReader();
  const script = { reader: null as Promise<CodeReader> | null };
  return {
    read: async (picture) => {
      try {
        return (await detector.detect(picture)).map(({ rawValue }) => rawValue);
      } catch {
        // Some systems have the interface and lack the service behind it.
        script.reader ??= scriptReader();
        return (await script.reader).read(picture);
      }
    },
  };
}

async function ownDetector(): Promise<Detector | null> {
  const { BarcodeDetector: Found } = globalThis as { readonly BarcodeDetector?: DetectorClass };
  if (Found === undefined) return null;
  const formats = await Found.getSupportedFormats().catch((): readonly string[] => []);
  return formats.includes('qr_code') ? new Found({ formats: ['qr_code'] }) : null;
}

/**
 * Wider pictures take longer and show no more of a code that fills the view. They take turns, because the decoder fails time and again on
 * a sharp code whose modules are about 4.65 pixels wide (measured: none of ten at that size, all of ten beside it).
 */
const widths = [960, 1280, 800] as const;

async function scriptReader(): Promise<CodeReader> {
  const { default: decode } = await import('jsqr');
  const canvas = document.createElement('canvas');
  let turn = 0;
  return {
    read: (picture) => {
      const widest = widths[turn % widths.length] ?? widths[0];
      turn += 1;
      const scale = Math.min(1, widest / picture.videoWidth);
      const [width, height] = [Math.round(picture.videoWidth * scale), Math.round(picture.videoHeight * scale)];
      const pen = canvas.getContext('2d', { willReadFrequently: true });
      if (pen === null || width === 0 || height === 0) return Promise.resolve([]);
      canvas.width = width;
      canvas.height = height;
      pen.drawImage(picture, 0, 0, width, height);
      const found = decode(pen.getImageData(0, 0, width, height).data, width, height, { inversionAttempts: 'dontInvert' });
      return Promise.resolve(found === null ? [] : [found.data]);
    },
  };
}
