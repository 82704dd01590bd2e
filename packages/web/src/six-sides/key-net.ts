import type { Side } from '@plugstead/engine/job'

export type KeySide = Side

/** The six sides small, as the net lies: floor in the middle, right long side above it. Not to scale. */
export const KEY_NET: readonly {
  readonly side: Side
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}[] = [
  { side: 'right', x: 18, y: 0, w: 36, h: 18 },
  { side: 'blind end', x: 0, y: 19, w: 17, h: 18 },
  { side: 'floor', x: 18, y: 19, w: 36, h: 18 },
  { side: 'door end', x: 55, y: 19, w: 17, h: 18 },
  { side: 'roof', x: 73, y: 19, w: 31, h: 18 },
  { side: 'left', x: 18, y: 38, w: 36, h: 18 },
]

/** The sides on the left and the right hand of whoever stands inside and looks at a side. */
export const NEIGHBOURS: Readonly<Record<Side, readonly [Side, Side]>> = {
  left: ['door end', 'blind end'],
  'blind end': ['left', 'right'],
  right: ['blind end', 'door end'],
  'door end': ['right', 'left'],
  floor: ['right', 'left'],
  roof: ['right', 'left'],
}
