import type { HaulBox } from '@plugstead/engine/haul'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, rect, round, tag, upward, words } from '../model/make.ts'
import { sideView } from '../model/view.ts'
import type { Point } from '../scene.ts'
import { type DrawnBox, limitsWords } from './drawn-box.ts'
import { bodyOf, kilonewtons, massWords, middleOf } from './lifting.ts'

/** Depth of a deck as drawn; its own frame is not known. */
const DECK_MM = 120

/** On the truck: height over the road, where it is held, what holds it must bear. */
export function lashingDrawing(of: DrawnBox, haul: HaulBox): Drawing {
  const [L, , H] = of.body.outsideMm
  const look = sideView('left', 'outside', of.body.outsideMm)
  const centre = haul.centres[haul.centres.length - 1]!
  const road = -haul.design.deckHeightM * 1000
  const { securing } = haul
  const points = new Map(securing.points.map((p) => [look.at(p.atMm).join(), { at: look.at(p.atMm), what: p.what }]))
  const gear = haul.design.lashings.map((l) => `${l.count} × ${l.kind}, ${l.over}`)
  const needs =
    securing.neededN === null || securing.countedN === null
      ? []
      : [`working loads together ${kilonewtons(securing.countedN)}, needed ${kilonewtons(securing.neededN)}`]
  const lines = [
    ...gear,
    `held against ${kilonewtons(securing.forwardN)} forwards, ${kilonewtons(securing.rearN)} backwards, ${kilonewtons(securing.sideN)} to each side (${securing.method})`,
    ...needs,
    `${centre.state}: ${massWords(centre)}`,
    limitsWords(of, 'the driver and the carrier'),
  ]
  return {
    id: 'lashing',
    title: 'Lashing on the deck',
    said: `${of.build.box} on a deck ${haul.design.deckHeightM} m high, ${haul.heightOnDeckM.toFixed(2)} m over the road, held at ${securing.points.length} points. ${gear.join('; ')}.`,
    toScale: true,
    items: [
      rect('lift', [-700, -DECK_MM], [L + 700, 0], 'opening', 'slant wide'),
      ...bodyOf(of, look),
      ...middleOf(centre, look),
      ...[...points.values()].flatMap(({ at, what }): readonly Drawn[] => {
        const [low, high]: readonly [Point, Point] = [
          [at[0] - 50, at[1] - 50],
          [at[0] + 50, at[1] + 50],
        ]
        return [round('lift', at, 50, 'cut', 'blank'), tag(low, high, what, { inside: 'things' })]
      }),
      {
        kind: 'outline',
        layer: 'lift',
        pointsMm: [
          [-1200, road],
          [L + 1200, road],
        ],
        closed: false,
        line: 'section',
      },
      upward([L + 1200, road], [L, H], L + 1200, 6),
      upward([L + 1200, road], [L + 700, 0], L + 1200, 12),
      across([0, H], [L, H], H, -5),
      ...lines.map((line, i) => words([-1200, road], line, { byMm: [0, 6 + 3.6 * i], strong: i === lines.length - 1 })),
    ],
  }
}
