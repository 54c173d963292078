/** What takes samples as they come, from a file or live. */
export interface Listener {
  readonly push: (x: Float64Array) => void;
}
