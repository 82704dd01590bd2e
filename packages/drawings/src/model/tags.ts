import { type Item, LETTERING_MM, line, type Point, text } from '../scene.ts'
import { type Area, areaOf, overlapMm2 } from './lettering.ts'

/** A body on paper and its letters. */
export interface PaperTag {
  readonly body: Area
  readonly words: string
  readonly strong: boolean
  readonly inside: 'nothing' | 'hatch' | 'things'
  readonly of?: string
}

/**
 * Letters of every body, none on another's letters where there is room: inside it, else beside it, else farther off on a wire. Largest
 * bodies first, for they keep their letters inside; then by place, so that the same drawing always gives the same paper.
 */
export function taggedItems(tags: readonly PaperTag[], taken: readonly Area[]): readonly Item[] {
  const bodies = tags.map((tag) => tag.body)
  const letters: Area[] = [...taken]
  const order = tags.toSorted((a, b) => areaMm2(b.body) - areaMm2(a.body) || a.body.left - b.body.left || a.body.top - b.body.top)
  return order.flatMap((tag) => {
    let best: { readonly item: ReturnType<typeof text>; readonly cost: number; readonly far: boolean } | null = null
    for (const [rank, place] of placesOf(tag).entries()) {
      const item = text(place.at, tag.words, {
        anchor: place.anchor,
        strong: tag.strong,
        halo: !place.inside || tag.inside === 'hatch',
      })
      const area = areaOf(item)
      const onLetters = letters.reduce((sum, one) => sum + overlapMm2(grown(area), one), 0)
      const onBodies = place.inside ? 0 : bodies.reduce((sum, one) => sum + overlapMm2(area, one), 0)
      const cost = onLetters * ON_LETTERS + onBodies + rank * LATER
      if (best === null || cost < best.cost - 1e-9) best = { item, cost, far: place.far }
      if (onLetters === 0 && onBodies === 0) break
    }
    if (best === null) return []
    const area = areaOf(best.item)
    letters.push(area)
    const lettered = tag.of === undefined ? best.item : { ...best.item, of: tag.of }
    return best.far ? [wire(tag.body, area), lettered] : [lettered]
  })
}

const ON_LETTERS = 20
const LATER = 0.05
const areaMm2 = (a: Area): number => (a.right - a.left) * (a.bottom - a.top)
/** Letters keep a hair's breadth from others. */
const grown = (a: Area): Area => ({ left: a.left - 0.4, right: a.right + 0.4, top: a.top - 0.15, bottom: a.bottom + 0.15 })

interface Place {
  readonly at: Point
  readonly anchor: 'start' | 'middle' | 'end'
  readonly inside: boolean
  readonly far: boolean
}

function placesOf({ body, words, strong, inside }: PaperTag): readonly Place[] {
  const own = areaOf(text([0, 0], words, { strong }))
  const [wide, tall] = [own.right - own.left, own.bottom - own.top]
  const [x, y] = [(body.left + body.right) / 2, (body.top + body.bottom) / 2]
  const sit = LETTERING_MM * 0.27
  const near: Place[] = []
  if (inside !== 'things' && wide < body.right - body.left - 0.6 && tall < body.bottom - body.top)
    near.push({ at: [x, y + sit], anchor: 'middle', inside: true, far: false })
  for (const gap of [0.9, 3.4, 6.2, 9]) {
    const far = gap > 1
    near.push(
      { at: [x, body.top - gap], anchor: 'middle', inside: false, far },
      { at: [x, body.bottom + gap + tall * 0.78], anchor: 'middle', inside: false, far },
      { at: [body.right + gap, y + sit], anchor: 'start', inside: false, far },
      { at: [body.left - gap, y + sit], anchor: 'end', inside: false, far },
    )
    for (const up of [-1, 1] as const)
      near.push(
        { at: [body.right + gap, y + sit + up * (gap + 2)], anchor: 'start', inside: false, far: true },
        { at: [body.left - gap, y + sit + up * (gap + 2)], anchor: 'end', inside: false, far: true },
      )
  }
  return near
}

/** From the nearest edge of the letters to the nearest edge of the body. */
function wire(body: Area, letters: Area): Item {
  const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high)
  const middle = (a: Area): Point => [(a.left + a.right) / 2, (a.top + a.bottom) / 2]
  const [lx, ly] = middle(letters)
  const to: Point = [clamp(lx, body.left, body.right), clamp(ly, body.top, body.bottom)]
  return line([[clamp(to[0], letters.left, letters.right), clamp(to[1], letters.top, letters.bottom)], to], 'hair')
}
