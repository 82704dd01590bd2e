import type { Opening, OpeningClass, Side } from '../job/index.ts'
import { type Finding, judgeLower, judgeUpper, put, source, step, type Working, worst } from '../kernel/index.ts'
import { figure } from './figures.ts'
import { type Made, made, mm, say } from './finding.ts'
import { FRAME_STRESS_PA, jambNeedMm4, lintel, tubeNamed, tubeSection } from './frame.ts'
import { betweenMm, classNeeded, mustReachRails, onSide, struckBy } from './opening.ts'
import type { SideCut } from './result.ts'
import type { SkinView } from './view.ts'

const RANK: Record<OpeningClass, number> = { 'hole on a flat': 0, collar: 1, framed: 2, door: 3 }
const ENGINEER = 'a structural engineer'

/** Everything about one opening as a cut: what it may not strike, what frame it needs. */
export function judgeCut(view: SkinView, o: Opening): readonly Made[] {
  return [struck(view, o), classed(view, o), clearOfPost(view, o), ...frameOf(view, o)]
}

const subjectOf = (view: SkinView, o: Opening) => `${view.box} ${o.id}`

function struck(view: SkinView, o: Opening): Made {
  const [worstOne] = struckBy(view.body, o)
  return made({
    code: 'skin/member-cut',
    subject: subjectOf(view, o),
    verdict: worstOne === undefined ? 'holds' : 'fails',
    basis: 'physics',
    said:
      worstOne === undefined
        ? `${o.id} cuts no post, rail or header.`
        : `${o.id} would cut the ${worstOne.member.kind} ${worstOne.member.id} by ${mm(worstOne.byMm)}: posts, rails and headers are never cut.`,
    ...(worstOne === undefined ? {} : { demand: put('into', worstOne.byMm, 'mm'), limit: put('allowed', 0, 'mm') }),
    provenance: 'common practice',
    decides: ENGINEER,
  })
}

function classed(view: SkinView, o: Opening): Made {
  const needs = classNeeded(view.body, o)
  const enough = RANK[o.class] >= RANK[needs]
  const size = Math.max(o.widthMm, o.heightMm)
  return made({
    code: 'skin/class',
    subject: subjectOf(view, o),
    verdict: enough ? 'holds' : 'fails',
    basis: 'house',
    said: enough
      ? `${o.id}: ${mm(size)}, built as ${o.class}; ${needs} is what it needs.`
      : `${o.id}: ${mm(size)} built as ${o.class} crosses a rib or is too large: it needs ${needs}.`,
    provenance: 'common practice',
  })
}

/** Holes that sit on a flat only if the ribs lie as the table has them. */
export function judgeRibs(view: SkinView): readonly Made[] {
  return (['left', 'right', 'blind end'] as const).flatMap((side) => {
    const band = view.body.sides[side].corrugation?.flatsBandMm ?? 0
    const holes = view.build.skin.openings.filter((o) => o.side === side && o.class === 'hole on a flat')
    if (band === 0 || holes.length === 0) return []
    return [
      made({
        code: 'skin/first-rib',
        subject: `${view.box} ${side}`,
        verdict: 'tight',
        basis: 'physics',
        said: `${holes.length} hole${holes.length === 1 ? '' : 's'} of the ${side} side sit on flats if the ribs lie as the table has them; nobody has measured the first one, and they may lie ${mm(band)} to either side.`,
        provenance: 'common practice',
        assumed: [`facts.surveys.${view.box}.first-rib.${side.replace(' ', '-')}`],
        caution: 'Measure the first rib before the first hole is drilled, and move the holes with it.',
      }),
    ]
  })
}

function clearOfPost(view: SkinView, o: Opening): Made {
  const limit = figure('clear of corner post')
  const place = onSide(o)
  const { sheet } = view.body.sides[o.side]
  const clear = Math.min(place.fromMm - sheet.fromMm, sheet.toMm - place.toMm)
  return made({
    code: 'skin/post-clear',
    subject: subjectOf(view, o),
    verdict: judgeLower(clear, limit.value, 0),
    basis: 'house',
    said: `${o.id} stands ${mm(clear)} from the corner post; ${mm(limit.value)} are kept whole.`,
    demand: put('clear', clear, 'mm'),
    limit: put('least', limit.value, 'mm'),
    provenance: limit.rests.provenance,
  })
}

function frameOf(view: SkinView, o: Opening): readonly Made[] {
  if (o.class !== 'framed' && o.class !== 'door') return []
  const subject = subjectOf(view, o)
  if (o.frame === null)
    return [
      made({
        code: 'skin/frame',
        subject,
        verdict: 'fails',
        basis: 'house',
        said: `${o.id} has no frame; a cut wider than one rib needs one on four sides.`,
        provenance: 'common practice',
        decides: ENGINEER,
      }),
    ]
  const rails = mustReachRails(view.body, o)
  const tube = tubeNamed(o.frame)
  const wall = view.body.sides[o.side].corrugation
  const need =
    wall === null ? null : jambNeedMm4({ wallMm4PerMm: wall.inertiaMm4PerPitch / wall.pitchMm.value, openingMm: o.widthMm })
  const has = tubeSection(tube)
  const out: Made[] = []
  if (need !== null) {
    const working: Working = {
      id: `${subject}/jamb`,
      title: `Jambs of ${o.id} against the wall they replace`,
      steps: [...has.steps, ...need.steps],
      judgement: {
        demand: put('I', has.value.inertiaMm4, 'mm4'),
        relation: '≥',
        limit: put('I jamb', need.value, 'mm4'),
        tight: '10 %',
        rests: source('rule of the opening table', 'common practice'),
      },
    }
    const verdict = rails && !o.railToRail ? 'fails' : judgeLower(has.value.inertiaMm4, need.value)
    out.push(
      made(
        {
          code: 'skin/frame',
          subject,
          verdict,
          basis: 'house',
          said:
            rails && !o.railToRail
              ? `${o.id} is ${mm(o.heightMm)} high and ${mm(o.widthMm)} wide: its jambs must run from rail to rail.`
              : `${o.id}: jambs of ${o.frame} have ${say(has.value.inertiaMm4)} mm4; the wall they replace had ${say(need.value)} mm4 each.`,
          demand: put('I', has.value.inertiaMm4, 'mm4'),
          limit: put('I jamb', need.value, 'mm4'),
          provenance: 'common practice',
          decides: ENGINEER,
        },
        working,
      ),
    )
  }
  out.push(lintelOf(view, o, subject))
  return out
}

function lintelOf(view: SkinView, o: Opening, subject: string): Made {
  const snow = view.job.yard.snow.groundLoadPa
  if (snow === null)
    return made({
      code: 'skin/lintel',
      subject,
      verdict: 'unknown',
      basis: 'physics',
      said: `${o.id}: nobody has said the snow load, so its head cannot be judged.`,
      provenance: 'told',
      decides: ENGINEER,
    })
  const beam = lintel({
    snowPa: snow,
    boxWidthM: view.body.outsideMm[1] / 1000,
    openingM: o.widthMm / 1000,
    tube: tubeNamed(o.frame!),
  })
  const { stressPa, deflectionM, limitM } = beam.value
  const working: Working = {
    id: `${subject}/lintel`,
    title: `Head of ${o.id} under roof snow`,
    steps: beam.steps,
    judgement: {
      demand: put('δ', deflectionM, 'm'),
      relation: '≤',
      limit: put('δ max', limitM, 'm'),
      tight: '10 %',
      rests: source('a/240', 'common practice'),
    },
    notes: ['The ground snow load is put on the roof whole: what a roof keeps of it is worked out where the box is set down.'],
  }
  return made(
    {
      code: 'skin/lintel',
      subject,
      verdict: worst([judgeUpper(stressPa, FRAME_STRESS_PA), judgeUpper(deflectionM, limitM)]),
      basis: 'physics',
      said: `${o.id}: its head sags ${say(deflectionM * 1000)} mm of ${say(limitM * 1000)} mm, at ${say(stressPa / 1e6)} of ${say(FRAME_STRESS_PA / 1e6)} N/mm2, under ${say(snow / 1000)} kPa of snow.`,
      demand: put('δ', deflectionM, 'm'),
      limit: put('δ max', limitM, 'm'),
      provenance: 'common practice',
      decides: ENGINEER,
    },
    working,
  )
}

/** Openings of one side against each other: wall left between a frame and the next cut. */
export function judgeBetween(view: SkinView): readonly Made[] {
  const { openings } = view.build.skin
  const out: Made[] = []
  openings.forEach((a, i) => {
    for (const b of openings.slice(i + 1)) {
      if (a.side !== b.side) continue
      const frames = [a, b].filter((o) => o.class === 'framed' || o.class === 'door').length
      const pitch = view.body.sides[a.side].corrugation?.pitchMm.value ?? 0
      const least = frames === 2 ? pitch : frames === 1 ? figure('hole on a flat at most').value : Math.max(a.widthMm, b.widthMm)
      const clear = betweenMm(onSide(a), onSide(b))
      if (clear >= least - 1e-6) continue
      out.push(
        made({
          code: 'skin/between',
          subject: `${view.box} ${a.id}`,
          verdict: 'fails',
          basis: clear < 0 ? 'physics' : 'house',
          said:
            clear < 0
              ? `${a.id} and ${b.id} overlap by ${mm(-clear)}.`
              : `Between ${a.id} and ${b.id} ${mm(clear)} of wall are left; ${mm(least)} are kept.`,
          demand: put('left', clear, 'mm'),
          limit: put('least', least, 'mm'),
          provenance: 'common practice',
        }),
      )
    }
  })
  return out
}

/** How much of each side is taken out: width of the cuts, one beside another counted once, and area. */
export function sideCuts(view: SkinView): readonly SideCut[] {
  const sides: readonly Side[] = ['left', 'right', 'blind end']
  return sides.map((side) => {
    const { sheet } = view.body.sides[side]
    const cuts = view.build.skin.openings.filter((o) => o.side === side).map(onSide)
    const sheetMm = sheet.toMm - sheet.fromMm
    // A hole on one flat takes no stiffness: it counts by its area only.
    const wide = view.build.skin.openings.filter((o) => o.side === side && o.class !== 'hole on a flat').map(onSide)
    const cutMm = covered(wide.map((c) => [c.fromMm, c.toMm]))
    const areaMm2 = cuts.reduce((sum, c) => sum + (c.toMm - c.fromMm) * (c.highMm - c.lowMm), 0)
    return { side, sheetMm, cutMm, cutFrac: cutMm / sheetMm, areaFrac: areaMm2 / (sheetMm * (sheet.highMm - sheet.lowMm)) }
  })
}

/** Length that intervals cover together. */
function covered(intervals: readonly (readonly [number, number])[]): number {
  let sum = 0
  let end = -Infinity
  for (const [from, to] of intervals.toSorted((a, b) => a[0] - b[0])) {
    sum += Math.max(0, to - Math.max(from, end))
    end = Math.max(end, to)
  }
  return sum
}

export function judgeSides(view: SkinView): readonly Made[] {
  const most = figure('cut of a side without an engineer')
  const tight = figure('tight cut of a side')
  const calm = figure('panel area without calculation')
  const allowed = figure('panel area with calculation')
  return sideCuts(view)
    .filter((s) => s.areaFrac > 0)
    .map((s) => {
      const subject = `${view.box} ${s.side}`
      const byWidth: Finding['verdict'] = s.cutFrac > most.value ? 'fails' : s.cutFrac > tight.value ? 'tight' : 'holds'
      const byArea: Finding['verdict'] = s.areaFrac > allowed.value ? 'fails' : s.areaFrac > calm.value ? 'tight' : 'holds'
      const working: Working = {
        id: `${subject}/cut`,
        title: `What is taken out of the ${s.side} side`,
        steps: [
          step(
            'c',
            'width of all cuts / sheet',
            [put('cuts', s.cutMm, 'mm'), put('sheet', s.sheetMm, 'mm')],
            say(100 * s.cutFrac),
            '%',
            most.rests,
          ),
          step('a', 'area of all cuts / sheet', [], say(100 * s.areaFrac), '%', calm.rests),
        ],
        judgement: {
          demand: put('c', s.cutFrac, ''),
          relation: '≤',
          limit: put('most', most.value, ''),
          tight: `${100 * tight.value} %`,
          rests: most.rests,
        },
      }
      return made(
        {
          code: 'skin/wall-lost',
          subject,
          verdict: worst([byWidth, byArea]),
          basis: 'house',
          said: `The ${s.side} side loses ${say(100 * s.cutFrac)} % of its length and ${say(100 * s.areaFrac)} % of its sheet; without an engineer ${100 * most.value} % and, uncalculated, ${100 * calm.value} % of the sheet.`,
          demand: put('c', s.cutFrac, ''),
          limit: put('most', most.value, ''),
          provenance: 'memory',
          decides: ENGINEER,
        },
        working,
      )
    })
}
