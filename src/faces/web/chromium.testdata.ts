import { existsSync } from "node:fs";
import { type Browser, chromium, type Page } from "playwright-core";

/** Where a Chromium of this machine is; the one without a window of its own first: it takes two thirds of the other's processor time. */
export const executablePath = ["chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"]
  .map((name) => `/usr/bin/${name}`)
  .find((p) => existsSync(p));

/** A browser of its own, without a window, that takes as long to begin as the machine needs; `more` are switches of its own. */
export const launched = (more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({
    timeout: 0,
    ...(executablePath ? { executablePath } : {}),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...more,
    ],
  });
/** What is waited for on a page is the event, however slow the machine: what never comes is ended after twenty minutes. */
export const patient = (page: Page): Page => {
  page.setDefaultTimeout(20 * 60_000);
  return page;
};
