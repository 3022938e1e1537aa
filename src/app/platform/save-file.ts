/** Hands a text to the browser's download, piece by piece into a Blob so that a long one is never one string. */
export function saveFile(name: string, type: string, pieces: Iterable<string>): void {
  saveBlob(name, new Blob([...pieces], { type }));
}

export function saveBlob(name: string, file: Blob): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the data once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
