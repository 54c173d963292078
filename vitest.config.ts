import { defineConfig } from "vitest/config";

/** Pages of theory are imported as text, as the bundle does it. */
const markdownAsText = {
  name: "markdown-as-text",
  transform: (code: string, id: string) => (id.endsWith(".md") ? `export default ${JSON.stringify(code)};` : undefined),
};

export default defineConfig({
  plugins: [markdownAsText],
  test: { include: ["src/**/*.test.ts", "checks/**/*.test.ts"], testTimeout: 60_000, pool: "forks", maxWorkers: 2 },
});
