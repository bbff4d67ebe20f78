import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';
import { ClosingLine } from './tests/closing-line.ts';
import { offline } from './vite.offline.ts';

/**
 * One file for the app's build and for the tests. Three groups of tests: `shop` (engine, command line, benches)
 * runs in parallel and knows no screen; `screen` compiles Solid as the browser gets it, without a DOM; `browser`
 * drives the built app in a real Chromium, one file after the other.
 */
export default defineConfig({
  base: './',
  plugins: [solid(), offline()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    // How long a busy machine took to build is not a warning about the app.
    rolldownOptions: { checks: { bundlerTimings: false, pluginTimings: false } },
  },
  test: {
    environment: 'node',
    reporters: ['default', new ClosingLine()],
    projects: [
      {
        test: {
          name: 'shop',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/ui/**', 'tests/browser/**'],
          testTimeout: 60_000,
        },
      },
      {
        plugins: [solid({ hot: false })],
        test: {
          name: 'screen',
          environment: 'node',
          include: ['tests/ui/**/*.test.{ts,tsx}'],
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/serve-app.ts'],
          fileParallelism: false,
          // After the others: what a browser does in time should not hang on how busy they keep the machine.
          sequence: { groupOrder: 1 },
          testTimeout: 90_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
