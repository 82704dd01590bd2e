import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { Remedies, RemedyPart, RemedyStep, RemedyTable } from '@plugstead/engine/air'
import type { MadeYearsAsked } from '@plugstead/engine/plan'

/** More threads than this only wait for one memory. */
const MOST_THREADS = 4
const TOLD_EACH_MS = 1000

/**
 * The table of remedies, its pieces shared by threads: as many as the machine has processors, `threadsCount` where told. The table is the same to the
 * byte, whoever did which piece. Told on standard error about once a second; an interrupt ends it: null, and the program goes on.
 */
export async function remediesInThreads(
  said: string,
  asked: MadeYearsAsked,
  remedies: Remedies,
  threadsCount: number = Math.min(availableParallelism(), MOST_THREADS),
): Promise<RemedyTable | null> {
  const [alone, stacked] = [remedies.steps('alone'), remedies.steps('stacked')]
  const ofCount = alone.length + stacked.length
  let doneCount = 0
  let stopped = false
  const stop = () => {
    stopped = true
    void end()
  }
  const threads = Array.from(
    { length: Math.min(threadsCount, alone.length) },
    () => new Worker(new URL('./remedies-thread.ts', import.meta.url), { workerData: asked }),
  )
  const end = () => Promise.all(threads.map((thread) => thread.terminate()))
  const teller = setInterval(() => process.stderr.write(`${said}: ${doneCount} of ${ofCount}\n`), TOLD_EACH_MS)
  process.once('SIGINT', stop)
  const all = async (steps: readonly RemedyStep[], order: readonly string[]): Promise<readonly RemedyPart[]> => {
    const parts: RemedyPart[] = []
    let next = 0
    const take = async (thread: Worker): Promise<void> => {
      while (next < steps.length) {
        parts.push(await partOf(thread, steps[next++] as RemedyStep, order))
        doneCount += 1
      }
    }
    await Promise.all(threads.map(take))
    return parts
  }
  try {
    const first = await all(alone, [])
    return remedies.table(first, await all(stacked, remedies.orderOf(first)))
  } catch (thrown) {
    if (!stopped) throw thrown
    process.stderr.write(`${said}: stopped after ${doneCount} of ${ofCount}\n`)
    return null
  } finally {
    clearInterval(teller)
    process.off('SIGINT', stop)
    await end()
  }
}

/** One piece by one thread. A thread that ends before it answers fails it. */
function partOf(thread: Worker, step: RemedyStep, order: readonly string[]): Promise<RemedyPart> {
  const { promise, resolve, reject } = Promise.withResolvers<RemedyPart>()
  const ended = () => reject(new Error('a thread ended before its piece was done'))
  const heard = (part: RemedyPart) => resolve(part)
  thread.once('message', heard).once('error', reject).once('exit', ended)
  thread.postMessage({ step, order })
  return promise.finally(() => thread.off('message', heard).off('error', reject).off('exit', ended))
}
