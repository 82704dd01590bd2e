import type { BoxBody } from '../box/index.ts'
import { type BoxBuild, type Opening, type PointMm, SIDES, type Side } from '../job/index.ts'
import { byText, tenth } from './figures.ts'
import type { HoleRow, WallHoles } from './result.ts'

/** Seen from outside, these sides run against their axis. */
const MIRRORED: ReadonlySet<Side> = new Set(['right', 'blind end'])

const DATUM: Record<Side, string> = {
  left: 'lower left corner as seen from outside (blind end)',
  right: 'lower left corner as seen from outside (door end)',
  'blind end': 'lower left corner as seen from outside (right side)',
  'door end': 'lower left corner as seen from outside (left side)',
  roof: 'corner of blind end and left side, seen from above',
  floor: 'corner of blind end and left side, seen from above',
}

/** Along the side from its datum corner, and up: across the box on roof and floor. */
function onSide(body: BoxBody, side: Side, at: PointMm): { readonly alongMm: number; readonly upMm: number } {
  const [x, y, z] = at
  if (side === 'roof' || side === 'floor') return { alongMm: x, upMm: y }
  const along = side === 'left' || side === 'right' ? x : y
  return { alongMm: MIRRORED.has(side) ? body.sides[side].alongMm - along : along, upMm: z }
}

/** What is cut, drilled and welded on each side, from its datum, in the order of doing: frames first, then holes, then pads; left to right. */
export function wallHoles(body: BoxBody, build: Pick<BoxBuild, 'skin' | 'fit'>): readonly WallHoles[] {
  return SIDES.flatMap((side): readonly WallHoles[] => {
    const rows = [
      ...build.skin.openings.filter((o) => o.side === side).map((o) => openingRow(body, o)),
      ...fixingRows(body, build, side),
    ].toSorted((a, b) => ORDER[a.work] - ORDER[b.work] || a.alongMm - b.alongMm || a.upMm - b.upMm || byText(a.id, b.id))
    if (rows.length === 0) return []
    return [{ side, datum: DATUM[side], bandMm: body.sides[side].corrugation?.flatsBandMm ?? 0, rows }]
  })
}

const ORDER: Record<HoleRow['work'], number> = { 'cut out': 0, hole: 1, 'bolt hole': 2, 'weld pad': 3 }

function openingRow(body: BoxBody, o: Opening): HoleRow {
  const { alongMm, upMm } = onSide(body, o.side, o.atMm)
  const round = o.shape === 'round'
  return {
    id: o.id,
    work: round ? 'hole' : 'cut out',
    face: 'outside',
    alongMm: tenth(alongMm),
    upMm: tenth(upMm),
    widthMm: tenth(o.widthMm),
    heightMm: tenth(o.heightMm),
    round,
    cornerRadiusMm: o.cornerRadiusMm,
    tool: toolFor(o),
    needs: o.serves.length === 0 ? o.id : o.serves.join(', '),
  }
}

function toolFor(o: Opening): string {
  if (o.shape === 'round') return `hole saw ${tenth(o.widthMm)} mm, from the flat side`
  return o.frame === null ? 'plasma or grinder, edge ground' : 'plasma or grinder, inside the tacked frame'
}

const PAD_MM = 75
const BOLT_MM = 11

/** Pads and bolt holes that the channel asks of the sheet. Rails are welded to without a mark of their own. */
function fixingRows(body: BoxBody, { fit }: Pick<BoxBuild, 'fit'>, side: Side): readonly HoleRow[] {
  return fit.strut
    .filter((p) => p.side === side)
    .flatMap((p) =>
      p.fixings.flatMap((f, n): readonly HoleRow[] => {
        const bolt = f.how === 'bolt through flat'
        if (!bolt && f.how !== 'weld to pad' && f.how !== 'bolt to pad') return []
        const { alongMm, upMm } = onSide(body, side, f.atMm)
        const sizeMm = bolt ? BOLT_MM : PAD_MM
        return [
          {
            id: `${p.id} ${n + 1}`,
            work: bolt ? 'bolt hole' : 'weld pad',
            face: p.use === 'outside' ? 'outside' : 'inside',
            alongMm: tenth(alongMm),
            upMm: tenth(upMm),
            widthMm: sizeMm,
            heightMm: sizeMm,
            round: bolt,
            cornerRadiusMm: 0,
            tool: bolt ? `drill ${BOLT_MM} mm, sealing washer` : `pad ${PAD_MM} mm, fillet on two sides`,
            needs: p.id,
          },
        ]
      }),
    )
}
