import { expect, test } from 'vitest'
import { countStories, countTests } from './test-report.mjs'

const file = (status: string, tests: readonly (readonly [string, string])[], message = '') => ({
  name: '/home/x.test.ts',
  status,
  message,
  assertionResults: tests.map(([fullName, how]) => ({ fullName, status: how, failureMessages: how === 'failed' ? ['no'] : [] })),
})

test('passed and failed tests are summed, skipped ones are named and count as neither', () => {
  const report = {
    success: false,
    testResults: [
      file('failed', [
        ['a', 'passed'],
        ['b', 'failed'],
        ['c', 'skipped'],
        ['d', 'pending'],
      ]),
    ],
  }
  expect(countTests(report, '/home')).toMatchObject({ passed: 1, failed: 1, skipped: ['x.test.ts: c', 'x.test.ts: d'] })
})

test('a file that cannot be loaded is a failure, though no test of it failed', () => {
  expect(countTests({ success: false, testResults: [file('failed', [], 'syntax')] }, '/home')).toMatchObject({
    ...{ passed: 0, failed: 1, failures: [{ name: 'x.test.ts', message: 'syntax' }] },
  })
})

test('a run that went wrong outside any test is a failure', () => {
  expect(countTests({ success: false, testResults: [file('passed', [['a', 'passed']])] }, '/home')).toMatchObject({
    passed: 1,
    failed: 1,
  })
})

test('stories in a browser are counted by their last line, each failure with what is said of it', () => {
  const output = 'passed  a  1.0 s\nFAILED  b  2.0 s\n    said this\n    and that\npassed  c  1.0 s\n2 passed, 1 failed\n'
  expect(countStories(output)).toEqual({ passed: 2, failed: 1, failures: ['FAILED  b  2.0 s\n    said this\n    and that'] })
})

test('a browser that never came to its end is no count', () => {
  expect(countStories('passed  a  1.0 s\nkilled\n')).toBeNull()
})
