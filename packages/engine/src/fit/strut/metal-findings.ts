import type { StrutPiece } from '../../job/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { type Metal, metalOf, metalPath, sectionIn } from '../layout/metal.ts'
import { sectionOf } from './section.ts'

/** Categories of ISO 12944 in which zinc does not last. */
const HARD = /\bC(5|X)\b/i

/** Channel of the metal that was pinned, kept apart from the steel it stands on; and in salt air what the other metal would weigh and cost. */
export function judgeMetal(of: {
  readonly box: string
  readonly strut: readonly StrutPiece[]
  readonly pins: Parameters<typeof metalOf>[0]
  readonly corrosivity: string | null
  readonly moneyPerM: (section: string) => number | null
  readonly currency: string
}): Judged {
  const { box, strut, corrosivity } = of
  const path = metalPath(box)
  const pinned = of.pins.find((p) => p.path === path)
  const asked = metalOf(of.pins, box)
  const isAluminium = strut.some((p) => sectionOf(p.section).metal === 'aluminium')
  const here: Metal = isAluminium ? 'aluminium' : 'steel'
  const out: Judged[] = []
  if (asked === null)
    out.push(
      judged({
        code: 'fit/pin-unread',
        subject: path,
        verdict: 'unknown',
        basis: 'house',
        said: `“${String(pinned?.value)}”, pinned as ${path}, is no metal of channel. Write “steel” or “aluminium”.`,
        provenance: 'told',
      }),
    )
  else if (pinned !== undefined && asked !== here)
    out.push(
      judged({
        code: 'fit/pin-kept',
        subject: `${box} strut`,
        verdict: 'fails',
        basis: 'house',
        said: `The channel is of ${here}; ${asked} is pinned.`,
        provenance: 'told',
      }),
    )
  const hard = corrosivity !== null && HARD.test(corrosivity)
  if (strut.length > 0 && (isAluminium || hard))
    out.push(
      judged({
        code: 'fit/strut-metal',
        subject: `${box} strut`,
        verdict: 'tight',
        basis: 'house',
        said: isAluminium
          ? `The channel is of aluminium on a box of steel: where wet both touch, the aluminium is eaten. A sleeve and a sheet of plastic between channel, stud and pad at every fixing, stainless washers, paint on the pad first. ${inMetal(of, 'aluminium')}; ${inMetal(of, 'steel')}.`
          : `${corrosivity}: zinc does not last here. Hot-dip galvanised and painted, stainless, or aluminium kept apart from the steel (pin ${path}: aluminium); what a nut holds in aluminium is asked of its maker first. ${inMetal(of, 'steel')}; ${inMetal(of, 'aluminium')}.`,
        caution:
          'A jumper bonds aluminium channel to the box all the same: isolated from corrosion is not isolated from a fault.',
        provenance: 'common practice',
      }),
    )
  return together(out)
}

const lengthM = (p: StrutPiece): number => Math.hypot(...[0, 1, 2].map((i) => p.toMm[i]! - p.fromMm[i]!)) / 1000

function inMetal(of: Parameters<typeof judgeMetal>[0], metal: Metal): string {
  const pieces = of.strut.map((p) => ({ section: sectionIn(metal, p.section), m: lengthM(p) }))
  const kg = pieces.reduce((sum, p) => sum + p.m * sectionOf(p.section).massKgPerM, 0)
  const prices = pieces.map((p) => {
    const perM = of.moneyPerM(p.section)
    return perM === null ? null : perM * p.m
  })
  const money = prices.includes(null) ? null : prices.reduce((sum: number, x) => sum + (x ?? 0), 0)
  return `in ${metal} ${shown(kg)} kg and ${money === null ? 'no price known' : `${shown(money)} ${of.currency}`}`
}
