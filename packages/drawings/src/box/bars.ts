import type { CutBar, CutPlan, SectionCut } from '@plugstead/engine/shop'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { millimetres, rect, stroke, tag, words } from '../model/make.ts'

/** How far one row stands from the next, and how thick a bar is drawn, as shares of the longest bar: few rows stand wider apart. */
const rowFrac = (rows: number): number => Math.min(0.1, Math.max(0.052, 0.9 / Math.max(1, rows)))
const THICK_FRAC = 0.024

/** One stock bar a row to scale: parts lettered with tag and length, the blade's width black, the offcut hatched. */
export function barsDrawing({ kind, section, kerfMm, plan }: SectionCut, at: number): Drawing {
  const longest = Math.max(1, ...plan.bars.map((bar) => bar.lengthMm))
  const row = longest * rowFrac(plan.bars.length)
  const proof = plan.proven ? 'no plan does better: proven' : `not proven: bound ${plan.bound}, gap ${plan.gap ?? 'unknown'}`
  const head = `${section}: ${plan.count} bar${plan.count === 1 ? '' : 's'}, ${plan.setUps.count} set-ups, kerf ${millimetres(kerfMm)}; ${proof}`
  return {
    id: `bars-${at}-${kind}`,
    title: `Cutting bars: ${section}`,
    said: `${head}. ${plan.outcome === 'cut' ? `${plan.bars.length} ways to cut, one a row.` : 'It cannot be cut from this stock.'}`,
    toScale: true,
    items: [
      words([0, 0], head, { strong: true, byMm: [0, -3] }),
      ...(plan.outcome === 'cut' ? [] : plan.lacks.map((lack, i) => words([0, 0], lackWords(lack), { byMm: [0, 2 + 3.6 * i] }))),
      ...plan.bars.flatMap((bar, i) => barItems(bar, -row * (i + 0.7), longest * THICK_FRAC)),
    ],
  }
}

function lackWords(lack: CutPlan['lacks'][number]): string {
  return lack.kind === 'too long'
    ? `${lack.id}: ${millimetres(lack.lengthMm)} long, the longest stock ${millimetres(lack.longestMm)}`
    : `needed ${millimetres(lack.neededMm)}, there ${millimetres(lack.thereMm)}`
}

function barItems(bar: CutBar, y: number, thick: number): readonly Drawn[] {
  const drawn: Drawn[] = [rect('cut', [0, y - thick], [bar.lengthMm, y], 'symbol')]
  for (const piece of bar.pieces) {
    const to = piece.fromMm + piece.lengthMm
    const name = piece.labels[0] ?? piece.ids[0] ?? ''
    const more = piece.labels.length > 1 ? ` +${piece.labels.length - 1}` : ''
    drawn.push(tag([piece.fromMm, y - thick], [to, y], `${name}${more} ${millimetres(piece.lengthMm)}`))
    if (!piece.sawn) continue
    drawn.push(
      stroke(
        'cut',
        [
          [to, y - thick],
          [to, y],
        ],
        'cut',
      ),
    )
  }
  const last = bar.pieces[bar.pieces.length - 1]
  const end = last === undefined ? 0 : last.fromMm + last.lengthMm
  if (bar.remnantMm > 0) {
    const from = bar.lengthMm - bar.trimMm / 2 - bar.remnantMm
    drawn.push(
      rect('mark', [Math.max(from, end), y - thick], [bar.lengthMm - bar.trimMm / 2, y], 'none', 'slant wide'),
      tag([Math.max(from, end), y - thick], [bar.lengthMm, y], `${bar.keep ? 'rack' : 'scrap'} ${millimetres(bar.remnantMm)}`, {
        inside: 'hatch',
      }),
    )
  }
  const times = bar.times === 1 ? '' : `${bar.times} ×`
  if (times !== '') drawn.push(words([0, y - thick / 2], times, { anchor: 'end', strong: true, byMm: [-1.5, 0.9] }))
  return drawn
}
