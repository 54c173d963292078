import { existsSync } from "node:fs";

/** Where a Chromium of this machine is; the one without a window of its own first: it takes two thirds of the other's processor time. */
export const executablePath = ["chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"]
  .map((name) => `/usr/bin/${name}`)
  .find((p) => existsSync(p));
