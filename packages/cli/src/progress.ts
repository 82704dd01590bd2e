import { Worker } from 'node:worker_threads'

/**
 * Runs `work`, and says on standard error once a second what is going on when it takes longer than one. The words come from a
 * second thread, for the work itself leaves no time between.
 */
export async function withProgress<T>(said: string, work: () => T | Promise<T>): Promise<T> {
  const done = new Int32Array(new SharedArrayBuffer(4))
  const worker = new Worker(TELLER, { eval: true, workerData: { said, done }, stdout: false, stderr: false })
  worker.unref()
  worker.on('error', () => {})
  try {
    return await work()
  } finally {
    Atomics.store(done, 0, 1)
    Atomics.notify(done, 0)
  }
}

const TELLER = `
const { workerData } = require('node:worker_threads')
const { writeSync } = require('node:fs')
const { said, done } = workerData
for (let seconds = 1; Atomics.wait(done, 0, 0, 1000) === 'timed-out'; seconds += 1) {
  try { writeSync(2, said + ' ' + seconds + ' s\\n') } catch {}
}
`
