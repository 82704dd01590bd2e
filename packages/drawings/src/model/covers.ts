import type { Item } from '../scene.ts'
import { type Area, coverOf, together } from './lettering.ts'

/** What everything of one thing covers, and the words lettered on it. */
export interface ThingCover extends Area {
  readonly of: string
  readonly words: readonly string[]
}

/** Of each thing that items are part of, in the order in which they were drawn first. */
export function thingCovers(items: readonly Item[]): readonly ThingCover[] {
  const parts = new Map<string, Item[]>()
  for (const item of items) {
    if (item.of === undefined) continue
    const had = parts.get(item.of)
    if (had === undefined) parts.set(item.of, [item])
    else had.push(item)
  }
  return [...parts].map(([of, own]) => ({
    of,
    ...together(own.map(coverOf)),
    words: own.flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
  }))
}
