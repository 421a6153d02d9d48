/** Has the browser save bytes under a name. */
export function saveFile(name: string, bytes: Uint8Array | string, type = 'application/octet-stream'): void {
  const blob = new Blob([bytes as BlobPart], { type });
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // After the click the browser still reads from it.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
