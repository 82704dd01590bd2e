import type { RemedyPart, RemedyStep } from '@plugstead/engine/air'
import { useCallback, useEffect, useRef, useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import type { Engine } from '../engine/client.ts'
import type { RemedyView, RemedyViewAsked } from '../worker/air/types.ts'
import { helpersFor, inPieces } from './pieces.ts'

export type RemediesNow =
  | { readonly is: 'idle' }
  | { readonly is: 'running'; readonly doneCount: number; readonly ofCount: number; readonly stopping: boolean }
  | { readonly is: 'lacks'; readonly lacks: readonly string[] }
  | { readonly is: 'done'; readonly view: RemedyView | null; readonly doneCount: number; readonly ofCount: number }

const WORKERS = 2

/** The table of remedies, run in two workers of its own, piece by piece; stopped, what is done stays. Another answer of the job clears it. */
export function useRemedies(box: string | null, room: Pick<RemedyViewAsked, 'widthPx' | 'letterPx' | 'units'> | null) {
  const { engine, jobs } = useBench()
  const { round } = useJob().now
  const [now, setNow] = useState<RemediesNow>({ is: 'idle' })
  const stopped = useRef(false)
  const helpers = useRef<readonly Engine[]>([])
  const end = useCallback((): void => {
    for (const helper of helpers.current) helper.stop()
    helpers.current = []
  }, [])
  // biome-ignore lint/correctness/useExhaustiveDependencies: another answer of the job, or another box, has no table yet
  useEffect(() => {
    setNow({ is: 'idle' })
    return end
  }, [round, box, end])
  const run = async (): Promise<void> => {
    if (box === null || room === null) return
    stopped.current = false
    setNow({ is: 'running', doneCount: 0, ofCount: 0, stopping: false })
    const task = await engine.call('remedyTask', { box })
    if (task === null) return setNow({ is: 'idle' })
    const own = await helpersFor(jobs, WORKERS)
    helpers.current = own
    const [first] = await Promise.all(own.map((helper) => helper.call('remediesBegin', task)))
    if (first === undefined) return
    if (first.is === 'lacks') {
      end()
      return setNow({ is: 'lacks', lacks: first.lacks })
    }
    const ofCount = first.alone.length + first.stacked.length
    let doneCount = 0
    const told = (): void => setNow({ is: 'running', doneCount, ofCount, stopping: stopped.current })
    told()
    const all = (steps: readonly RemedyStep[], order: readonly string[]): Promise<readonly RemedyPart[]> =>
      inPieces({
        ...{ helpers: own, steps, stopped: () => stopped.current },
        part: (helper, step) => helper.call('remedyPart', { step, order }),
        done: () => {
          doneCount += 1
          told()
        },
      })
    const alone = await all(first.alone, [])
    const lead = own[0] as Engine
    const order = alone.length === 0 ? [] : await lead.call('remedyOrder', { alone })
    const stacked = alone.length < first.alone.length ? [] : await all(first.stacked, order)
    const view = await lead.call('remedyView', { alone, stacked, ...room })
    end()
    if (view !== null) {
      const { table, aloneCount, stackedCount } = view
      const remedies = { table, aloneYearsCount: aloneCount, stackedYearsCount: stackedCount }
      await engine.call('keepAir', { at: task.at, box, remedies })
    }
    setNow({ is: 'done', view, doneCount, ofCount })
  }
  return {
    now,
    // Whoever leaves the room ends the workers: nothing is left to say.
    run: () => void run().catch(() => {}),
    stop: () => {
      stopped.current = true
      setNow((was) => (was.is === 'running' ? { ...was, stopping: true } : was))
    },
  }
}
