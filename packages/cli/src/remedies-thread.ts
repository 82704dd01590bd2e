import { parentPort, workerData } from 'node:worker_threads'
import type { RemedyStep } from '@plugstead/engine/air'
import { type MadeYearsAsked, remediesFor } from '@plugstead/engine/plan'

/** One thread of the table of remedies: each step it is told comes back as its part. */
const remedies = remediesFor(workerData as MadeYearsAsked)

parentPort?.on('message', ({ step, order }: { readonly step: RemedyStep; readonly order: readonly string[] }) => {
  if ('lacks' in remedies) throw new Error(remedies.lacks.join(' '))
  parentPort?.postMessage(remedies.part(step, order))
})
