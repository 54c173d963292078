import type { Plugin } from "vitest/config";
export declare const watInTests: Plugin;
export declare const wasmInTests: Plugin;
