/** Puts a sound among the person's downloads. */
export function saveSound(wav: Uint8Array<ArrayBuffer>, file: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([wav], { type: "audio/wav" }));
  link.download = file;
  link.click();
}
