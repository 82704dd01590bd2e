import { expect, test } from 'vitest'
import { countTests } from './test-report.mjs'

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
