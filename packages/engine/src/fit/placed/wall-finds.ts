import type { BoxBody } from '../../box/index.ts'
import type { FitDesign, Opening, PlacedItem, SkinDesign } from '../../job/index.ts'
import { judgeLower, put, source, step, type Working } from '../../kernel/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { FREE_GRID_FRAC, HIGHWAY_MM, WATER_LINE_MM } from '../layout/rules.ts'
import { LEADS_INTO } from '../layout/wall.ts'

interface Patch {
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
}

const patchOf = (item: PlacedItem): Patch => {
  const along = item.side === 'blind end' || item.side === 'door end' ? 1 : 0
  return {
    fromMm: item.atMm[along],
    toMm: item.atMm[along] + item.sizeMm[along],
    lowMm: item.atMm[2],
    highMm: item.atMm[2] + item.sizeMm[2],
  }
}

const onto = (a: Patch, b: Patch): number =>
  Math.min(a.toMm - b.fromMm, b.toMm - a.fromMm, a.highMm - b.lowMm, b.highMm - a.lowMm)
const isWall = (i: PlacedItem): boolean => i.side !== 'roof' && i.side !== 'floor'

/** Nothing hangs on a dent. */
export function judgeDents(box: string, body: BoxBody, fit: FitDesign): Judged {
  const wrong = fit.items.filter(isWall).flatMap((item) =>
    body.sides[item.side].dents.flatMap((dent) => {
      const by = onto(patchOf(item), dent)
      return by > 1e-6 ? [{ item, dent, by }] : []
    }),
  )
  if (wrong.length === 0) return { findings: [], workings: [] }
  return together(
    wrong.map(({ item, dent, by }) =>
      judged({
        code: 'fit/on-dent',
        subject: `${box} ${item.id}`,
        verdict: 'fails',
        basis: 'physics',
        said: `${item.id} stands ${shown(by)} mm onto the dent of ${shown(dent.deepMm)} mm at ${shown(dent.fromMm / 1000)} m on the ${item.side}: the channel finds no bearing.`,
        demand: put('onto', by, 'mm'),
        limit: put('allowed', 0, 'mm'),
        provenance: 'told',
      }),
    ),
  )
}

/** An outside receptacle stands over the hole of its own raceway. */
const servesIt = (o: Opening, item: PlacedItem): boolean =>
  item.kind === 'receptacle' && item.face === 'outside' && o.serves.some((plug) => item.id === `receptacle ${plug}`)

/** Nothing but what an opening leads into stands before it. */
export function judgeOpenings(box: string, fit: FitDesign, skin: SkinDesign): Judged {
  const wrong = fit.items.filter(isWall).flatMap((item) =>
    skin.openings.flatMap((o) => {
      if (o.side !== item.side || LEADS_INTO[o.use]?.includes(item.kind) === true || servesIt(o, item)) return []
      const along = o.side === 'blind end' || o.side === 'door end' ? 1 : 0
      const by = onto(patchOf(item), {
        fromMm: o.atMm[along] - o.widthMm / 2,
        toMm: o.atMm[along] + o.widthMm / 2,
        lowMm: o.atMm[2] - o.heightMm / 2,
        highMm: o.atMm[2] + o.heightMm / 2,
      })
      return by > 1e-6 ? [{ item, o, by }] : []
    }),
  )
  if (wrong.length > 0)
    return together(
      wrong.map(({ item, o, by }) =>
        judged({
          code: 'fit/on-opening',
          subject: `${box} ${item.id}`,
          verdict: 'fails',
          basis: 'physics',
          said: `${item.id} stands ${shown(by)} mm over ${o.id}.`,
          demand: put('over', by, 'mm'),
          limit: put('allowed', 0, 'mm'),
          provenance: 'computed',
        }),
      ),
    )
  if (skin.openings.length === 0) return { findings: [], workings: [] }
  return judged({
    code: 'fit/on-opening',
    subject: box,
    verdict: 'holds',
    basis: 'physics',
    said: `Nothing stands before any of the ${skin.openings.length} openings.`,
    provenance: 'computed',
  })
}

/** A cargo leaf folds right back against the outside of its long side: what hangs there stops it. */
export function judgeSwings(box: string, body: BoxBody, fit: FitDesign): Judged {
  const outside = fit.items.filter((i) => i.face === 'outside' && (i.side === 'left' || i.side === 'right'))
  const struck = body.doors
    .filter((d) => d.side === 'door end' && d.mostDeg > 180)
    .flatMap((leaf) => {
      const side = leaf.hingeMm[1] < body.outsideMm[1] / 2 ? 'left' : 'right'
      const from = body.outsideMm[0] - leaf.widthMm
      const here = outside.filter((i) => i.side === side && patchOf(i).toMm > from + 1e-6)
      const worst = here.toSorted((a, b) => patchOf(b).toMm - patchOf(a).toMm || (a.id < b.id ? -1 : 1))[0]
      return worst === undefined ? [] : [{ leaf, side, count: here.length, worst, by: patchOf(worst).toMm - from }]
    })
  if (struck.length > 0)
    return together(
      struck.map(({ leaf, side, count, worst, by }) =>
        judged({
          code: 'fit/door-swing',
          subject: `${box} ${leaf.id}`,
          verdict: 'fails',
          basis: 'house',
          said: `Folded back against the ${side} side, ${leaf.id} strikes ${count === 1 ? worst.id : `${count} things, ${worst.id} among them`}: ${shown(by)} mm of its ${shown(leaf.widthMm)} mm; it then opens no farther than straight out.`,
          demand: put('into the swing', Math.round(by), 'mm'),
          limit: put('allowed', 0, 'mm'),
          provenance: 'computed',
        }),
      ),
    )
  if (outside.length === 0) return { findings: [], workings: [] }
  return judged({
    code: 'fit/door-swing',
    subject: box,
    verdict: 'holds',
    basis: 'house',
    said: 'Cargo doors fold right back: nothing outside stands in their swing.',
    provenance: 'computed',
  })
}

/** Bands along floor and ceiling that stay clear for other trades, and the line of water and pests. */
export function judgeBands(box: string, body: BoxBody, fit: FitDesign, skin: SkinDesign): Judged {
  const floor = body.floor.topMm
  const ceiling = body.insideAtMm[2] + body.insideMm[2]
  // A fan stands where its opening is cut; a wireway is what the upper band is for.
  const cut = skin.openings.some((o) => o.use === 'fan')
  const hung = fit.items.filter((i) => isWall(i) && i.face === 'inside' && !(cut && i.kind === 'fan') && i.kind !== 'wireway')
  if (hung.length === 0) return { findings: [], workings: [] }
  const room = (i: PlacedItem) => Math.min(patchOf(i).lowMm - floor, ceiling - patchOf(i).highMm)
  const worst = hung.reduce((m, i) => (room(i) < room(m) ? i : m))
  const wet = hung.filter((i) => patchOf(i).lowMm - floor < WATER_LINE_MM - 1e-6)
  const verdict = judgeLower(room(worst), HIGHWAY_MM, 0)
  return together([
    judged({
      code: 'fit/highway',
      subject: `${box} ${worst.id}`,
      verdict,
      basis: 'house',
      said:
        verdict === 'holds'
          ? `${shown(room(worst))} mm stay clear along floor and ceiling for the next trade, least at ${worst.id}.`
          : `${worst.id} leaves ${shown(Math.max(0, room(worst)))} mm of the ${HIGHWAY_MM} mm along floor or ceiling that stay clear for the next trade.`,
      demand: put('clear', Math.round(room(worst)), 'mm'),
      limit: put('band', HIGHWAY_MM, 'mm'),
      provenance: 'common practice',
    }),
    ...wet.map((i) =>
      judged({
        code: 'fit/water-line',
        subject: `${box} ${i.id}`,
        verdict: 'fails',
        basis: 'house',
        said: `${i.id} hangs ${shown(patchOf(i).lowMm - floor)} mm above the floor; water and pests come up to ${WATER_LINE_MM} mm.`,
        demand: put('above the floor', Math.round(patchOf(i).lowMm - floor), 'mm'),
        limit: put('line', WATER_LINE_MM, 'mm'),
        provenance: 'common practice',
      }),
    ),
  ])
}

/** Share of the grid that is free: between the outer uprights of each side and between the clear bands. */
export function freeGridFrac(
  body: BoxBody,
  fit: FitDesign,
): { readonly gridM2: number; readonly takenM2: number; readonly frac: number | null } {
  const high = body.insideMm[2] - 2 * HIGHWAY_MM
  let grid = 0
  let taken = 0
  for (const side of ['left', 'right', 'blind end', 'door end'] as const) {
    const along = side === 'blind end' || side === 'door end' ? 1 : 0
    const ups = fit.strut.filter((p) => p.use === 'upright' && p.side === side).map((p) => p.fromMm[along])
    if (ups.length < 2) continue
    grid += (Math.max(...ups) - Math.min(...ups)) * high
    taken += fit.items
      .filter((i) => i.side === side && i.face === 'inside')
      .reduce((sum, i) => sum + i.sizeMm[along] * i.sizeMm[2], 0)
  }
  return { gridM2: grid / 1e6, takenM2: taken / 1e6, frac: grid > 0 ? 1 - taken / grid : null }
}

export function judgeFreeGrid(box: string, body: BoxBody, fit: FitDesign): Judged {
  const { gridM2, takenM2, frac } = freeGridFrac(body, fit)
  if (frac === null) return { findings: [], workings: [] }
  const working: Working = {
    id: `${box}/free grid`,
    title: `Free grid in ${box}`,
    steps: [
      step(
        'free',
        '1 − ΣA things / A grid',
        [put('ΣA things', shown(takenM2), 'm²'), put('A grid', shown(gridM2), 'm²')],
        shown(100 * frac),
        '%',
        source('grid between the outer uprights and the clear bands', 'computed'),
      ),
    ],
    judgement: {
      demand: put('free', shown(100 * frac), '%'),
      relation: '≥',
      limit: put('spare', 100 * FREE_GRID_FRAC, '%'),
      tight: 'none',
      rests: source('20 % free grid', 'common practice'),
    },
  }
  return judged(
    {
      code: 'fit/free-grid',
      subject: box,
      verdict: judgeLower(frac, FREE_GRID_FRAC, 0),
      basis: 'house',
      said: `${shown(100 * frac)} % of the grid is free for what comes later; the house keeps ${100 * FREE_GRID_FRAC} %.`,
      demand: put('free', Number(shown(100 * frac)), '%'),
      limit: put('spare', 100 * FREE_GRID_FRAC, '%'),
      provenance: 'common practice',
    },
    working,
  )
}
