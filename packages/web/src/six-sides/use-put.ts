import { useCallback } from 'react'
import { useBench, useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { Moving } from './hand.ts'
import { longestOf } from './in-yard.ts'
import { pinText } from './on-side.ts'

/** Writes what was put down: a thing's place as a pin, a machine's cords and bearing as what somebody told. */
export function usePut(): (moving: Moving) => Promise<boolean> {
  const { engine } = useBench()
  const { session } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  return useCallback(
    async (moving) => {
      if (moving.kind === 'machine') {
        const edits = await engine.call('stand', moving.stand).catch(() => null)
        if (edits === null) return false
        return session.act(words.move.machineAct(moving.line.id, shown(longestOf(moving.stand), 'm', units)), edits)
      }
      const { line, place } = moving
      if (line.place === null) return false
      const value = pinText(place, line.face)
      const pin = { value, by: words.tag.desk, why: words.move.byHand }
      return session.act(words.move.act(line.letters, value), [{ path: ['choices', line.place.path], value: pin }])
    },
    [engine, session, words, units],
  )
}
