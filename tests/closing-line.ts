/**
 * The last line of a test run, for whoever reads only that: how many tests passed and how many failed. A file that
 * does not load and an error outside any test count as failed, so that the line never looks better than the run.
 */
import type { Reporter, TestModule, TestRunEndReason } from 'vitest/node';

export class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[], reason: TestRunEndReason): void {
    let passed = 0;
    let failed = errors.length;
    for (const module of modules) {
      let here = 0;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        if (state === 'failed') here += 1;
      }
      failed += here === 0 && module.state() === 'failed' ? 1 : here;
    }
    if (reason === 'failed') failed = Math.max(1, failed);
    process.stdout.write(`Tests: ${passed} passed, ${failed} failed\n`);
  }
}
