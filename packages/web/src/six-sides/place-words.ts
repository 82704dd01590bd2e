import type { Preferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import type { Words } from '../words/en.ts'
import type { ThingLine } from '../worker/protocol.ts'

/** “left long side, 1.60 m up, 0.90 m from the blind end”. */
export function placeWords(line: ThingLine, words: Words, units: Preferences['units']): string {
  const metres = (value: number): string => shown(Math.round(value * 100) / 100, 'm', units)
  const where = words.sheet.where(metres(line.upM), metres(line.alongM), words.sides[line.from as keyof typeof words.sides])
  return [words.sides[line.side], ...(line.face === 'outside' ? [words.sheet.outside] : []), where].join(', ')
}

/** One line of the drawing in words: name, what it is, where, its verdict. */
export function thingWords(line: ThingLine, words: Words, units: Preferences['units']): string {
  return words.sheet.thing([
    line.letters,
    ...(line.what === line.letters ? [] : [line.what]),
    placeWords(line, words, units),
    ...(line.verdict === null ? [] : [words.verdicts[line.verdict]]),
    ...(line.pinned ? [words.firm.pinned] : []),
  ])
}
