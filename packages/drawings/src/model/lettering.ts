import type { Item, Text } from '../scene.ts'

export interface Area {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** Mean advance of the lettering's face, by its size. Measured on words of the sheets; capitals are wider. */
const ADVANCE = 0.43
/** From the foot line up, and down: letters with both. */
const ASCENT = 0.74
const DESCENT = 0.2

export const wordsMm = (said: string, heightMm: number): number => said.length * ADVANCE * heightMm

/** What words cover on paper. */
export function areaOf(item: Text): Area {
  const length = wordsMm(item.text, item.heightMm)
  const start = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? -length / 2 : -length
  const [up, down] = [-ASCENT * item.heightMm, DESCENT * item.heightMm]
  const turn = (item.turnDeg * Math.PI) / 180
  const corners = [
    [start, up],
    [start + length, up],
    [start + length, down],
    [start, down],
  ].map(([x, y]) => [
    item.atMm[0] + x! * Math.cos(turn) - y! * Math.sin(turn),
    item.atMm[1] + x! * Math.sin(turn) + y! * Math.cos(turn),
  ])
  const [xs, ys] = [corners.map((c) => c[0]!), corners.map((c) => c[1]!)]
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
}

/** What an item covers on paper, without the width of its line. */
export function coverOf(item: Item): Area {
  switch (item.kind) {
    case 'line': {
      let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity]
      for (const [x, y] of item.moreMm === undefined ? item.pointsMm : [item.pointsMm, ...item.moreMm].flat()) {
        left = Math.min(left, x)
        right = Math.max(right, x)
        top = Math.min(top, y)
        bottom = Math.max(bottom, y)
      }
      return { left, right, top, bottom }
    }
    case 'circle':
    case 'arc':
      return around(item.atMm, item.radiusMm)
    case 'mark':
      return around(item.atMm, item.sizeMm / 2)
    case 'text':
      return areaOf(item)
  }
}

const around = ([x, y]: readonly [number, number], r: number): Area => ({ left: x - r, right: x + r, top: y - r, bottom: y + r })

/** How much two areas have in common, mm². */
export function overlapMm2(a: Area, b: Area): number {
  const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left)
  const tall = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
  return wide > 0 && tall > 0 ? wide * tall : 0
}

export function together(areas: readonly Area[]): Area {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const area of areas) {
    left = Math.min(left, area.left)
    right = Math.max(right, area.right)
    top = Math.min(top, area.top)
    bottom = Math.max(bottom, area.bottom)
  }
  return { left, right, top, bottom }
}
