import type { Plugin } from "vitest/config";
export declare const watInTests: Plugin;
