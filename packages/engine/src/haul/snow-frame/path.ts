import type { BoxBody } from '../../box/index.ts'
import type { Opening } from '../../job/index.ts'
import { judgeUpper, type Step, source, type Verdict, worst } from '../../kernel/index.ts'
import { combination } from '../combination.ts'
import { amount, figure, line } from '../shelf.ts'
import { bearers } from './parts.ts'
import { type Rails, railsOf } from './place.ts'
import { framedIn, railTube } from './rail.ts'
import type { FrameTask, FrameWork } from './work.ts'

/** From the rails to the four corners, and what of it is proved. */
export interface LoadPath {
  readonly verdict: Verdict
  readonly cornerN: number
  readonly said: string
  readonly steps: readonly Step[]
}

/**
 * Each long wall carries its half of the snow to its two corner posts as a girder: rails as chords, the corrugated sheet as its web.
 *
 *   V = Q/2,  N = Q·s/(8·h),  τ = V/(h·t);  beside an opening the shear there bends what is left above it: σ = V(x)·a/(2·S)
 *
 * What is left above an opening is rail, sheet and head as one section; the part below it is not counted. No pad but the four at the
 * corners is counted. What that does not prove is not said to fail: an engineer may find more.
 * @source statics; sheet as a shear web. Provenance: computed
 */
export function loadPath(task: FrameTask, work: FrameWork): LoadPath {
  const { body } = task
  const rails = railsOf(body)
  const tube = rails === null ? null : railTube(rails)
  const sheet = body.sides.left.corrugation
  if (rails === null || tube === null || sheet === null)
    return {
      verdict: 'unknown',
      cornerN: work.sideN / 2,
      said: 'Its walls are not known well enough to follow the load.',
      steps: [],
    }
  const limit = combination(task.by).steel * amount('box-steel-yield')
  const spanMm = body.fittings.lengthCentresMm
  const { highMm, lowMm } = body.sides.left.sheet
  const shearN = work.sideN / 2
  const chordN = (work.sideN * spanMm) / (8 * (highMm - lowMm))
  const chord = chordN / tube.areaMm2
  const shear = shearN / ((highMm - lowMm) * sheet.thicknessMm)
  const post = amount('post-stacking')
  const beside = framedIn(task.skin.openings).map((opening) => {
    const above = aboveOf(opening, rails, body)
    const edges = [opening.atMm[0] - opening.widthMm / 2, opening.atMm[0] + opening.widthMm / 2]
    const farMm = Math.max(...edges.map((x) => Math.abs(x - body.outsideMm[0] / 2)))
    const here = (work.sideN / spanMm) * Math.min(farMm, spanMm / 2)
    const local = work.checks.find((c) => c.what === `rail over ${opening.id}`)?.demand ?? 0
    return { opening, here, local, bent: above === null ? Infinity : (here * opening.widthMm) / 2 / above, above }
  })
  const parts = [
    judgeUpper(chord, limit),
    judgeUpper(shear, limit / Math.sqrt(3)),
    judgeUpper(shearN, post),
    ...beside.map((b) => judgeUpper(b.bent + b.local + chord, limit)),
  ]
  const found = worst(parts)
  const verdict = found === 'fails' ? 'unknown' : found
  const not = beside.filter((b) => judgeUpper(b.bent + b.local + chord, limit) === 'fails')
  return {
    verdict,
    cornerN: shearN,
    said:
      not.length > 0
        ? `What is left of the wall beside ${not.map((b) => b.opening.id).join(', ')} is not proved to carry it.`
        : verdict === 'unknown'
          ? 'The walls are not proved to carry it.'
          : 'The walls carry it to the corners.',
    steps: [
      line('V', 'Q/2, of one long wall to each corner', [['Q', work.sideN / 1000, 'kN']], shearN / 1000, 'kN'),
      line(
        'σ chord',
        'Q·s/(8·h·A)',
        [
          ['s', spanMm, 'mm'],
          ['h', highMm - lowMm, 'mm'],
          ['A', tube.areaMm2, 'mm2'],
        ],
        chord,
        'N/mm2',
      ),
      line('τ', 'V/(h·t)', [['t', sheet.thicknessMm, 'mm']], shear, 'N/mm2'),
      ...beside.map((b) =>
        line(
          `σ beside ${b.opening.id}`,
          'V(x)·a/(2·S) + rail over it + chord',
          [
            ['V(x)', b.here / 1000, 'kN'],
            ['a', b.opening.widthMm, 'mm'],
            ['S', b.above ?? 'no head', b.above === null ? '' : 'mm3'],
            ['rail over it', b.local, 'N/mm2'],
          ],
          Number.isFinite(b.bent) ? b.bent + b.local + chord : 'not proved',
          Number.isFinite(b.bent) ? 'N/mm2' : '',
        ),
      ),
      line('σ allowed', 'share·fy', [], limit, 'N/mm2', figure('box-steel-yield').rests),
      line('post', 'proved in the stacking test, uncut', [], post / 1000, 'kN', source('ISO 1496-1, stacking test', 'memory')),
    ],
  }
}

/** Section modulus of rail and head of a frame with the sheet between them; null: no head, or no sheet between. */
function aboveOf(opening: Opening, rails: Rails, body: BoxBody): number | null {
  const head = bearers().find((b) => b.section === opening.frame)
  const rail = railTube(rails)
  if (head === undefined || rail === null) return null
  const railAt = rails.topMm - rail.highMm / 2
  const headAt = opening.atMm[2] + opening.heightMm / 2 + head.bMm / 2
  const apart = railAt - headAt
  if (apart < (rail.highMm + head.bMm) / 2 || headAt < body.floor.topMm) return null
  const inertia = (rail.areaMm2 * head.areaMm2 * apart ** 2) / (rail.areaMm2 + head.areaMm2) + rail.inertiaMm4 + head.inertiaMm4
  const fromRail = (head.areaMm2 * apart) / (rail.areaMm2 + head.areaMm2)
  return inertia / Math.max(fromRail + rail.highMm / 2, apart - fromRail + head.bMm / 2)
}
