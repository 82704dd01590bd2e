import { useEffect, useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { TurningAnswer } from '../worker/protocol.ts'

type Point = NonNullable<TurningAnswer['point']>

/** Each input's value at which the verdict turns, nearest first: looked for one input after another, so that nothing else is kept waiting. */
export function Turning({ working }: { readonly working: string }) {
  const words = useWords()
  const { units } = usePreferences()
  const { now } = useJob()
  const { points, done } = usePoints(working)
  const turning = points
    .filter((p) => p.turnsAt !== null)
    .toSorted((a, b) => Math.abs(a.turnsAt! / a.value - 1) - Math.abs(b.turnsAt! / b.value - 1))
  const never = points.filter((p) => p.turnsAt === null)
  const sizes = (now.answer?.findings ?? []).filter((f) => f.workings.includes(working)).flatMap((f) => f.mends)
  return (
    <>
      <h3>{words.working.change}</h3>
      <ul className="turning" aria-busy={!done}>
        {turning.map((p) => (
          <li key={p.id}>
            {words.turning.turns(
              p.words,
              shown(p.value, p.unit, units),
              shown(p.turnsAt!, p.unit, units, { digits: 4 }),
              p.becomes === null ? '' : words.verdicts[p.becomes],
            )}
          </li>
        ))}
        {done ? null : <li className="quiet">{words.turning.looking}</li>}
        {done && turning.length === 0 ? <li>{words.turning.none}</li> : null}
        {done && never.length > 0 ? (
          <li className="quiet">{words.turning.never(words.listed(never.map((p) => p.words)))}</li>
        ) : null}
      </ul>
      {sizes.length === 0 ? null : (
        <>
          <h3>{words.turning.sizes}</h3>
          <ul>
            {[...new Set(sizes.map((m) => m.words))].map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}

function usePoints(working: string): { readonly points: readonly Point[]; readonly done: boolean } {
  const { engine } = useBench()
  const { now } = useJob()
  const key = `${working} ${now.round}`
  const [found, setFound] = useState<{ readonly key: string; readonly points: readonly Point[]; readonly done: boolean }>()
  useEffect(() => {
    let left = false
    const look = async (n: number, points: readonly Point[]): Promise<void> => {
      const answer = await engine.call('turning', { working, n })
      if (left) return
      if (answer === null || answer.point === null) return setFound({ key, points, done: true })
      const more = [...points, answer.point]
      setFound({ key, points: more, done: n + 1 >= answer.count })
      if (n + 1 < answer.count) await look(n + 1, more)
    }
    // A stop or a fault is said where the job's own answer stands.
    look(0, []).catch(() => {})
    return () => {
      left = true
    }
  }, [engine, working, key])
  return found?.key === key ? found : { points: [], done: false }
}
