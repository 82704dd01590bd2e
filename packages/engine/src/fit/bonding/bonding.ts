import type { BoxBody } from '../../box/index.ts'
import type { BondPoint, FitDesign, Opening, PointMm, SizeName, StrutPiece } from '../../job/index.ts'
import type { Finding } from '../../kernel/index.ts'
import { type Judged, judged, together } from '../judged.ts'

export interface BondInputs {
  readonly fit: Pick<FitDesign, 'items' | 'strut' | 'raceways'>
  readonly body: Pick<BoxBody, 'doors' | 'insideAtMm'>
  readonly openings: readonly Opening[]
}

/** A part that must be joined to the earth bar. */
interface Part {
  readonly id: string
  readonly what: string
  readonly atMm: PointMm
}

/** Raceways that carry no current themselves. */
const PLASTIC = /^PVC/

/**
 * Everything of metal that must be joined to the earth bar: the frame of the box, each door leaf across its hinge, panels, channel that
 * is not welded to the box, raceways of metal, and whatever else of metal holds live parts. Welded channel is part of the frame.
 * @source bond strut, box frame, doors, panel to the earth bar. Provenance: common practice
 */
function partsToBond({ fit, body, openings }: BondInputs): readonly Part[] {
  return [
    { id: 'box frame', what: 'stud welded to the bottom rail', atMm: body.insideAtMm },
    ...body.doors.map((leaf) => ({ id: `door ${leaf.id}`, what: 'flexible braid across the hinge', atMm: leaf.hingeMm })),
    ...openings
      .filter((one) => one.use === 'personnel door')
      .map((one) => ({ id: one.id, what: 'flexible braid across the hinge', atMm: one.atMm })),
    ...fit.items.flatMap((item) =>
      item.kind === 'panel' ||
      item.kind === 'service disconnect' ||
      item.kind === 'transformer' ||
      item.kind === 'transfer' ||
      item.kind === 'wireway'
        ? [{ id: item.id, what: `${item.what}: enclosure`, atMm: item.atMm }]
        : [],
    ),
    ...fit.strut
      .filter((piece) => !welded(piece))
      .map((piece) => ({ id: `strut ${piece.id}`, what: 'jumper to its bare metal, paint scraped', atMm: piece.fromMm })),
    ...fit.raceways.flatMap((raceway) => {
      const [first] = raceway.pointsMm
      return first === undefined || PLASTIC.test(raceway.kind)
        ? []
        : [{ id: `raceway ${raceway.id}`, what: 'bonding bushing or fitting at its end', atMm: first }]
    }),
  ]
}

const welded = (piece: StrutPiece): boolean => piece.fixings.some((f) => f.how === 'weld to rail' || f.how === 'weld to pad')

/** The bonding jumpers of a box, one for each part that must have one. */
export function bondPoints(inputs: BondInputs, conductor: SizeName): readonly BondPoint[] {
  return partsToBond(inputs).map((part) => ({ ...part, conductor }))
}

/** Is everything of metal in the box joined to an earth bar that is there? */
export function judgeBonding(inputs: BondInputs & { readonly box: string; readonly fit: FitDesign }): Judged {
  const { box, fit } = inputs
  const parts = partsToBond(inputs)
  const has = new Set(fit.bonds.map((bond) => bond.id))
  const missing = parts.filter((part) => !has.has(part.id))
  const known = new Set(parts.map((part) => part.id))
  const stray = fit.bonds.filter((bond) => !known.has(bond.id))
  const bar = fit.items.some((item) => item.kind === 'earth bar')
  const made = (verdict: Finding['verdict'], said: string): Judged =>
    judged({
      code: 'fit/bonding',
      subject: `${box} bonding`,
      verdict,
      basis: 'code',
      said,
      provenance: 'common practice',
      confirm: true,
      caution: 'Paint and rust do not conduct: scrape, join, coat again, and measure each joint before the box is energised.',
    })
  if (!bar) return made('fails', 'No earth bar hangs in the box: nothing can be joined to it.')
  return together([
    ...(missing.length > 0
      ? [made('fails', `Not joined to the earth bar: ${missing.map((part) => part.id).join(', ')}.`)]
      : [made('holds', `${parts.length} parts of metal are joined to the earth bar, each by a jumper of its own.`)]),
    ...(stray.length > 0
      ? [made('fails', `A jumper is drawn to what is not there: ${stray.map((bond) => bond.id).join(', ')}.`)]
      : []),
  ])
}
