import type { BoxBody } from '../box/index.ts'
import type { Design } from '../job/index.ts'
import { type Finding, gathered, type Working } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { type Made, made } from './finding.ts'
import { judgeBetween, judgeCut, judgeRibs, judgeSides, sideCuts } from './judge-cut.ts'
import { aboveGroundMm, builtHeight, exitRows, judgeExits, judgeHeights } from './judge-exits.ts'
import { judgeOutside, plateAfter, tightness } from './judge-outside.ts'
import { classNeeded, onSide } from './opening.ts'
import { animalsThrough, clearGapMm, reachThrough } from './passes.ts'
import { piecesOf } from './pieces.ts'
import type { BoxSkin, OpeningRow, SkinResult } from './result.ts'
import { stepsOf } from './steps.ts'
import type { SkinJob, SkinView } from './view.ts'

export interface SkinInputs {
  readonly job: SkinJob
  readonly design: Design
  readonly rules: RuleSet
  readonly bodies: Readonly<Record<string, BoxBody>>
}

/** What is cut in each box: every opening against frame, wall, weather, animals, hands and fire. Judges only. */
export function answerSkin(inputs: SkinInputs): {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: SkinResult
} {
  const findings: Finding[] = []
  const workings: Working[] = []
  const boxes: BoxSkin[] = []
  for (const box of [...new Set(inputs.design.boxes.map((b) => b.box))]) {
    const build = inputs.design.builds.find((b) => b.box === box)
    const body = inputs.bodies[box]
    if (build === undefined || body === undefined) {
      findings.push(notDesigned(box), ...builtHeight(inputs.job, box).map((m) => m.finding))
      continue
    }
    const view: SkinView = {
      job: inputs.job,
      box,
      body,
      build,
      designs: inputs.design.boxes.filter((b) => b.box === box),
      rules: inputs.rules,
    }
    const own = [
      ...build.skin.openings.flatMap((o) => judgeCut(view, o)),
      ...judgeRibs(view),
      ...judgeBetween(view),
      ...judgeSides(view),
      ...judgeExits(view),
      ...judgeHeights(view),
      ...judgeOutside(view),
    ]
    boxes.push(boxSkin(view, own))
    findings.push(
      ...gathered(
        box,
        own.map((m) => m.finding),
      ),
    )
    workings.push(...own.flatMap((m) => (m.working === undefined ? [] : [m.working])))
  }
  return { findings, workings, result: { boxes } }
}

const notDesigned = (box: string): Finding =>
  made({
    code: 'skin/not-designed',
    subject: box,
    verdict: 'unknown',
    basis: 'house',
    said: `Nothing is cut yet in ${box}: its build was not worked out.`,
    provenance: 'computed',
  }).finding

function boxSkin(view: SkinView, all: readonly Made[]): BoxSkin {
  return {
    box: view.box,
    openings: view.build.skin.openings.map((o) => openingRow(view, o, all)),
    exits: exitRows(view),
    sides: sideCuts(view),
    tightness: tightness(view),
    pieces: view.build.skin.openings.flatMap((o) => piecesOf(view.body, o)),
    steps: stepsOf(view),
    plate: plateAfter(view),
  }
}

function openingRow(view: SkinView, o: SkinView['build']['skin']['openings'][number], all: readonly Made[]): OpeningRow {
  const gap = clearGapMm(o)
  const place = onSide(o)
  const side = view.body.sides[o.side]
  const middle = (place.fromMm + place.toMm) / 2
  // Seen from outside, the right side and the blind end run against their axis.
  const mirrored = o.side === 'right' || o.side === 'blind end'
  const verdicts = all.filter((m) => m.finding.subject === `${view.box} ${o.id}`).map((m) => m.finding.verdict)
  const { probes, farMm } = reachThrough(gap)
  return {
    id: o.id,
    use: o.use,
    side: o.side,
    class: o.class,
    needs: classNeeded(view.body, o),
    widthMm: o.widthMm,
    heightMm: o.heightMm,
    fromLeftMm: mirrored ? side.alongMm - middle : middle,
    upMm: (place.lowMm + place.highMm) / 2,
    aboveGroundMm: aboveGroundMm(o),
    clearGapMm: gap,
    passes: animalsThrough(gap - 1e-6),
    reaches: probes.length === 0 ? 'nothing' : `${probes.map((p) => p.what).join(', ')}, ${farMm} mm`,
    verdict: (['fails', 'unknown', 'tight'] as const).find((v) => verdicts.includes(v)) ?? 'holds',
  }
}
