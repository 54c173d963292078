/** A file as it is read off the disk, piece by piece: an hour of it is never whole in memory. */
export async function* piecesOf(file: File): AsyncGenerator<Uint8Array> {
  const reader = file.stream().getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    yield value;
  }
}
