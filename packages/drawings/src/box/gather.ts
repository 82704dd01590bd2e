import type { Assessment } from '@plugstead/engine/assess'
import { boxBody } from '@plugstead/engine/box'
import type { BoxBuild, Design, Job } from '@plugstead/engine/job'
import { type Verdict, worst } from '@plugstead/engine/kernel'
import type { DrawnBox } from './drawn-box.ts'

export interface Drawable {
  readonly job: Job
  readonly design: Design
  readonly assessment: Assessment
}

/** Every box of a design that is built, with what its questions answered of it. */
export function drawnBoxes(of: Drawable): readonly DrawnBox[] {
  return of.design.builds.flatMap((build) => {
    const wanted = of.job.boxes.find((b) => b.id === build.box)
    if (wanted === undefined) return []
    const body = boxBody(wanted, of.job.surveys.find((s) => s.box === build.box) ?? null)
    const { fit, skin, haul, shop } = of.assessment.results
    const sawn = shop.boxes.find((b) => b.box === build.box)
    const hung = fit.boxes.find((b) => b.box === build.box)
    return [
      {
        body,
        build,
        skin: skin.boxes.find((b) => b.box === build.box) ?? null,
        haul: haul.boxes.find((b) => b.box === build.box) ?? null,
        spaces: hung?.spaces ?? [],
        cuts: sawn?.cuts ?? [],
        bends: sawn?.raceways ?? [],
        hauls: haulsOf(of, build.box),
        marks: marksOf(of.assessment, build),
        pinned: (hung?.items ?? []).filter((item) => item.pinned).map((item) => item.id),
        labels: labelsOf(of.design, build),
      },
    ]
  })
}

/** Findings about another box do not count here; the longest name of a box that a subject begins with is the one it is about. */
function haulsOf({ design, assessment }: Drawable, box: string): Verdict {
  const about = (subject: string): string | undefined =>
    design.builds
      .map((b) => b.box)
      .filter((id) => `${subject} `.startsWith(`${id} `))
      .toSorted((a, b) => b.length - a.length)[0]
  return worst(
    assessment.findings.filter((f) => f.question === 'haul' && (about(f.subject) ?? box) === box).map((f) => f.verdict),
  )
}

/** Worst verdict on each thing of the box by the questions of the box: what holds bears no mark. */
function marksOf({ findings }: Assessment, { box, fit, skin }: BoxBuild): DrawnBox['marks'] {
  const things = [...fit.items, ...skin.openings].map((one) => one.id)
  const marks: Record<string, Exclude<Verdict, 'holds'>> = {}
  for (const id of things) {
    const own = findings.filter((f) => (f.question === 'fit' || f.question === 'skin') && f.subject === `${box} ${id}`)
    const verdict = own.length === 0 ? 'holds' : worst(own.map((f) => f.verdict))
    if (verdict !== 'holds') marks[id] = verdict
  }
  return marks
}

/** Words of every circuit and of the gear that is worked on, once each, in the order of the panel. */
function labelsOf(design: Design, build: BoxBuild): DrawnBox['labels'] {
  const circuits = design.boxes
    .filter((b) => b.box === build.box)
    .flatMap((b) => b.circuits.map((c) => ({ on: c.id, words: c.label })))
  const gear = build.fit.items
    .filter((item) => item.kind === 'panel' || item.kind === 'service disconnect' || item.kind === 'transfer')
    .map((item) => ({ on: item.id, words: item.what }))
  const all = [...gear, ...circuits]
  return all.filter((label, i) => all.findIndex((other) => other.words === label.words) === i)
}
