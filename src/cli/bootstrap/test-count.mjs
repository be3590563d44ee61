/** Counts tests in the test runner's JSON report. */
import fs from 'node:fs';

/** Files that fail before their first test count as one failed test each; so does a missing report. */
export function countTests(file) {
  if (!fs.existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(fs.readFileSync(file, 'utf8'));
  const broken = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + broken.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}
