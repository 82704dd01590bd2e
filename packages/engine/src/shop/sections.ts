import { type FitDesign, type PlacedItem, type StrutPiece, wirewayPieces } from '../job/index.ts'
import type { Prices } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { cutPlan } from './cut/plan.ts'
import { byText, tenth } from './figures.ts'
import type { CutItem, RacewaySheet, SectionCut, ShopFactors } from './result.ts'
import type { SawnPiece } from './snow-frame.ts'
import { type Bar, barsFor, type Saw } from './stock.ts'

export interface CutsRequest {
  readonly fit: Pick<FitDesign, 'strut' | 'items'>
  readonly frames: readonly SawnPiece[]
  readonly raceways: readonly RacewaySheet[]
  readonly rules: Pick<RuleSet, 'id'>
  readonly prices: Prices
  readonly saw: Saw
  readonly rack: NonNullable<ShopFactors['rack']>
}

/** One cutting plan for each section: channel, frames, raceways. In that order, then by name. */
export function sectionCuts(of: CutsRequest): readonly SectionCut[] {
  const bySection = (pieces: readonly (CutItem & { readonly section: string })[]) =>
    [...Map.groupBy(pieces, (p) => p.section)].toSorted(([a], [b]) => byText(a, b))
  const strut = of.fit.strut.map((p) => ({
    section: p.section,
    id: p.id,
    lengthMm: tenth(pieceMm(p)),
    count: 1,
    label: p.id,
    needs: p.id,
  }))
  const frames = of.frames
    .filter((p) => !isSheet(p))
    .map((p) => ({
      section: p.section,
      id: `${p.opening} ${p.part}`,
      lengthMm: p.lengthMm,
      count: p.count,
      label: `${p.part} of ${p.opening}`,
      needs: p.opening,
    }))
  const pipes = of.raceways.flatMap((r) =>
    r.pieces.flatMap((p) =>
      p.nipple
        ? []
        : [
            {
              section: `${r.kind}/${r.trade}`,
              id: p.id,
              // To the whole millimetre, up: a pipe end takes no finer mark.
              lengthMm: Math.ceil(p.developedMm - 1e-6),
              count: 1,
              label: p.id,
              needs: r.id,
            },
          ],
    ),
  )
  const troughs = wirewayPieces(of.fit.items).flatMap((i) =>
    wirewayLengths(i, barsFor('raceway', of.rules), of.saw.trimMm).map((lengthMm, n) => ({
      section: i.part.replace(' ', '/'),
      id: `${i.id} #${n + 1}`,
      lengthMm,
      count: 1,
      label: `${i.id} #${n + 1}`,
      needs: i.id,
    })),
  )
  return [
    ...bySection(strut).map(([section, pieces]) => sectionCut(of, 'strut', section, `strut/${section}`, pieces)),
    ...bySection(frames).map(([section, pieces]) => sectionCut(of, 'frame', section, `frame/${section}`, pieces)),
    ...bySection([...pipes, ...troughs]).map(([section, pieces]) =>
      sectionCut(of, 'raceway', section, `raceway/${section}`, pieces),
    ),
  ]
}

/** A piece of wireway in lengths of stock, coupled end to end: whole ones, and what is left. */
function wirewayLengths(item: Pick<PlacedItem, 'sizeMm'>, bars: readonly Bar[], trimMm: number): readonly number[] {
  const stickMm = Math.max(...bars.map((b) => b.lengthMm)) - 2 * trimMm
  const wholeMm = Math.ceil(Math.max(item.sizeMm[0], item.sizeMm[1]) - 1e-6)
  const full = Math.ceil(wholeMm / stickMm) - 1
  return [...Array<number>(full).fill(stickMm), wholeMm - full * stickMm]
}

/** Plates and hoods are cut from sheet, not sawn from bars. */
export const isSheet = (p: Pick<SawnPiece, 'section'>): boolean => p.section.startsWith('sheet ')

const pieceMm = (p: StrutPiece): number => Math.hypot(p.toMm[0] - p.fromMm[0], p.toMm[1] - p.fromMm[1], p.toMm[2] - p.fromMm[2])

function sectionCut(
  of: CutsRequest,
  kind: SectionCut['kind'],
  section: string,
  priceId: string,
  pieces: readonly CutItem[],
): SectionCut {
  const price = Object.hasOwn(of.prices.rows, priceId) ? of.prices.rows[priceId] : undefined
  const perM = price?.per === 'm' ? price.money : null
  const rack = of.rack
    .filter((r) => r.section === section && r.count > 0)
    .toSorted((a, b) => a.lengthMm - b.lengthMm)
    .map((r, i) => ({ id: `rack ${i + 1}, ${r.lengthMm} mm`, lengthMm: r.lengthMm, costMoney: 0, count: r.count }))
  const bars = barsFor(kind, of.rules).map((b) => ({
    id: b.name,
    lengthMm: b.lengthMm,
    costMoney: perM === null ? null : Math.round(perM * b.lengthMm * 1000) / 1e6,
    count: null,
  }))
  return {
    kind,
    section,
    priceId,
    kerfMm: of.saw.kerfMm,
    trimMm: of.saw.trimMm,
    pieces: pieces.map(({ id, lengthMm, count, label, needs }) => ({ id, lengthMm, count, label, needs })),
    plan: cutPlan({ stocks: [...rack, ...bars], kerfMm: of.saw.kerfMm, trimMm: of.saw.trimMm, pieces }),
  }
}
