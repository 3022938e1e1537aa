/** Pixels of the longer side: enough to read a part number, small enough to keep hundreds. */
const longestSide = 1600;
const quality = 0.85;

/** The picture that the camera shows now, as JPEG; null when there is none. */
export function takePicture(video: HTMLVideoElement): Promise<Blob | null> {
  const { videoWidth: width, videoHeight: height } = video;
  if (width === 0 || height === 0) return Promise.resolve(null);
  const scale = Math.min(1, longestSide / Math.max(width, height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  canvas.getContext('2d')?.drawImage(video, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
}
