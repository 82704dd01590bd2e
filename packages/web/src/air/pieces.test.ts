import { expect, test } from 'vitest'
import type { Engine } from '../engine/client.ts'
import { first, inPieces } from './pieces.ts'

const helper = {} as Engine

test('what a person waits for goes first: no worker begins another piece before it is answered, or has failed', async () => {
  const begun: number[] = []
  let [answered, failed] = [() => {}, () => {}]
  const all = inPieces({
    ...{ helpers: [helper], steps: [1, 2, 3], stopped: () => false, done: () => {} },
    part: async (_, step) => {
      begun.push(step)
      if (step === 1)
        void first(
          new Promise<void>((resolve) => {
            answered = resolve
          }),
        )
      if (step === 2)
        first(
          new Promise<void>((_resolve, reject) => {
            failed = () => reject(new Error('no answer'))
          }),
        ).catch(() => {})
      return step
    },
  })
  const soon = () => new Promise((resolve) => setTimeout(resolve, 5))
  await soon()
  expect(begun).toEqual([1])
  answered()
  await soon()
  expect(begun).toEqual([1, 2])
  failed()
  expect(await all).toEqual([1, 2, 3])
})

test('stopped while it stood back, a worker begins nothing more', async () => {
  let [stopped, answered] = [false, () => {}]
  void first(
    new Promise<void>((resolve) => {
      answered = resolve
    }),
  )
  const all = inPieces({
    ...{ helpers: [helper, helper], steps: [1, 2], stopped: () => stopped, done: () => {} },
    part: async (_, step) => step,
  })
  stopped = true
  answered()
  expect(await all).toEqual([])
})
