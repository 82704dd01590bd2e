import { relative } from 'node:path'

/**
 * Sums a vitest JSON report: a test that failed, and a file that could not be loaded, each count as one failure.
 * A skipped test counts as neither and is named.
 */
export function countTests(report, root) {
  const failures = []
  const skipped = []
  let passed = 0
  for (const file of report.testResults) {
    const place = relative(root, file.name)
    const before = failures.length
    for (const test of file.assertionResults) {
      const name = `${place}: ${test.fullName}`
      if (test.status === 'passed') passed += 1
      else if (test.status === 'failed') failures.push({ name, message: ownLines(test.failureMessages.join('\n')) })
      else skipped.push(name)
    }
    if (file.status === 'failed' && failures.length === before)
      failures.push({ name: place, message: file.message ?? 'could not be loaded' })
  }
  // Errors outside any test (an unhandled rejection) fail the run without a failed test.
  if (report.success === false && failures.length === 0)
    failures.push({ name: 'the test run', message: 'ended with an error outside any test' })
  return { passed, failed: failures.length, failures, skipped }
}

/** Counts of a run of the app in a browser, from its last line; null when it did not come so far. Each failure keeps the lines below it. */
export function countStories(output) {
  const [, passed, failed] = /^(\d+) passed, (\d+) failed$/m.exec(output) ?? []
  if (passed === undefined) return null
  const failures = []
  let open = false
  for (const line of output.split('\n')) {
    if (line.startsWith('FAILED')) failures.push(line)
    else if (open && line.startsWith('    ')) failures[failures.length - 1] += `\n${line}`
    open = line.startsWith('FAILED') || (open && line.startsWith('    '))
  }
  return { passed: Number(passed), failed: Number(failed), failures }
}

/** A message without the test runner's own frames. */
function ownLines(message) {
  return message
    .split('\n')
    .filter((line) => !/^\s+at .*node_modules/.test(line) && !/^\s+at new Promise/.test(line))
    .join('\n')
}
