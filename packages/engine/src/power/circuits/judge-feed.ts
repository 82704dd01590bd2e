import type { Leg, Run } from '../../job/index.ts'
import { judgeEnds, source, type Verdict } from '../../kernel/index.ts'
import type { BoxView, LegSum } from './box-view.ts'
import { type Check, lower, shown, upper, worded } from './check.ts'
import { feedAmbientC, panelConnection } from './feed.ts'
import { tradeOrder } from './judge-conductor.ts'
import { raceWires, sizeIndex } from './wire.ts'

/** The run that ends at the main: from the point of supply, an own transformer, or the box that feeds this one. */
export const feedRunOf = (view: BoxView): Run => view.box.fedFrom?.run ?? view.box.panel.feed

/** Feed of the panel: line by its device, neutral by the largest unbalance, protective and electrode conductor. */
export function feedChecks(view: BoxView, sums: ReadonlyMap<Leg, LegSum>): readonly Check[] {
  const { rules, system, box } = view
  const run = feedRunOf(view)
  const device = box.fedFrom?.device ?? box.panel.main
  const unknown = [run.line, run.neutral, run.protective, box.electrode.conductor].find(
    (w) => w !== null && sizeIndex(rules, w.size) < 0,
  )
  if (unknown !== undefined && unknown !== null) {
    return [
      worded({
        what: 'feed',
        title: 'feed of the panel',
        basis: 'code',
        rests: source(`sizes of ${rules.title}`, 'told'),
        verdict: 'unknown',
        found: unknown.size,
        wanted: 'a size of the set',
        said: `is fed by ${unknown.size}, which the set does not list.`,
      }),
    ]
  }
  const loaded = system.legs.length === 3 ? 3 : 2
  const task = (ambientC: number) => ({
    metal: run.line.metal,
    insulation: run.line.insulation,
    continuousA: 0,
    otherA: device.ratingA,
    deviceA: device.ratingA,
    deviceFamily: device.family,
    loaded: loaded as 2 | 3,
    carrying: Math.max(2, system.legs.length),
    circuits: 1,
    ambientC,
    multiOutlet: false,
    motor: false,
    sets: run.sets,
  })
  const { designMaxC } = view.inputs.job.site
  const [low, high] = [
    feedAmbientC(run.lengthM, view.insideHotC.low, designMaxC),
    feedAmbientC(run.lengthM, view.insideHotC.high, designMaxC),
  ]
  const told = view.insideHotC.told || low === high
  const out: Check[] = []
  const hot = rules.conductorChecks?.(run.line.size, task(high)) ?? []
  const mild = rules.conductorChecks?.(run.line.size, task(low)) ?? hot
  const bad = hot.filter((c, i) => !c.holds || !(mild[i]?.holds ?? true))
  const verdict: Verdict = judgeEnds(
    hot.every((c) => c.holds) ? 'holds' : 'fails',
    mild.every((c) => c.holds) ? 'holds' : 'fails',
  )
  const nearest = (bad.length > 0 ? bad : hot).reduce(
    (a, b) => (b.limitA - b.demandA < a.limitA - a.demandA ? b : a),
    (bad[0] ?? hot[0])!,
  )
  const passes = rules.conductorFor(task(high)).value
  out.push({
    ...upper({
      what: 'feed',
      title: 'lines of the feed',
      basis: 'code',
      rests: nearest.steps[nearest.steps.length - 1]?.rests ?? source('conductor rules of the set', 'memory'),
      steps: hot.flatMap((c) => c.steps),
      demandA: nearest.demandA,
      limitA: nearest.limitA,
      said: `is fed by ${run.sets > 1 ? `${run.sets} × ` : ''}${run.line.size} behind ${device.ratingA} A: ${shown(nearest.demandA)} A asked, ${shown(nearest.limitA)} A there (${nearest.what}).`,
      assumed: told ? [] : [`boxes.${box.box}.inside-hot`],
      mends: verdict === 'holds' || passes === null ? [] : [{ path: 'feed.line', value: passes, words: `${passes} feed` }],
    }),
    verdict,
  })
  const worst = [...sums.values()].reduce<LegSum | null>((a, b) => (a === null || b.neutralA > a.neutralA ? b : a), null)
  if (worst !== null && system.neutral) out.push(neutralCheck(view, run, worst, task(high)))
  if (box.panel.bond === 'neutral not bonded here' && box.earthing !== 'TT') out.push(protectiveCheck(view, run, device.ratingA))
  out.push(electrodeCheck(view, run))
  if (run.raceway !== null) {
    const wires = raceWires({
      connection: panelConnection(system),
      line: run.line,
      neutral: run.neutral,
      protective: run.protective,
    })
    const asked = rules.racewayFor(wires, run.raceway.kind)
    const fits = asked.value !== null && tradeOrder(run.raceway.trade) >= tradeOrder(asked.value) - 1e-9
    out.push(
      worded({
        what: 'feed-fill',
        title: 'raceway of the feed',
        basis: 'code',
        rests: asked.steps[asked.steps.length - 1]?.rests ?? source('raceway fill', 'memory'),
        steps: asked.steps,
        verdict: fits ? 'holds' : 'fails',
        relation: '≥',
        found: run.raceway.trade,
        wanted: asked.value ?? 'none of the list',
        grave: false,
        said: `has its feed in ${run.raceway.kind} ${run.raceway.trade}; the fill asks ${asked.value ?? 'more than the list has'}.`,
      }),
    )
  }
  return out
}

function neutralCheck(view: BoxView, run: Run, worst: LegSum, task: Parameters<BoxView['rules']['ampacityA']>[1]): Check {
  const { rules, system } = view
  const asked = rules.neutralA({
    unbalanceA: worst.neutralA,
    nonLinearFrac: worst.neutralA > 0 ? worst.nonLinearA / worst.neutralA : 0,
    system,
    lineA: worst.neutralA,
  })
  const rests = asked.steps[asked.steps.length - 1]?.rests ?? source('neutral of the set', 'memory')
  if (run.neutral === null) {
    return worded({
      what: 'feed-neutral',
      title: 'neutral of the feed',
      basis: 'code',
      rests,
      steps: asked.steps,
      verdict: worst.neutralA > 0 ? 'fails' : 'holds',
      found: 'none',
      wanted: `${shown(asked.value)} A`,
      said: 'has no neutral in its feed.',
    })
  }
  const ampacity = rules.ampacityA(run.neutral.size, task)
  return lower({
    what: 'feed-neutral',
    title: 'neutral of the feed by the largest unbalance',
    basis: 'code',
    rests,
    steps: [...asked.steps, ...ampacity.steps],
    demandA: ampacity.value,
    limitA: asked.value,
    symbols: ['Iz N', 'IN'],
    said: `may put ${shown(asked.value)} A on the neutral of its feed when one leg is on alone; ${run.neutral.size} carries ${shown(ampacity.value)} A.`,
  })
}

const areaOf = (view: BoxView, size: string): number => view.rules.sizes.find((s) => s.name === size)?.areaMm2 ?? Number.NaN

function protectiveCheck(view: BoxView, run: Run, deviceA: number): Check {
  const asked = view.rules.protectiveFor({
    deviceA,
    line: run.line.size,
    grownFrom: run.line.size,
    metal: run.protective?.metal ?? 'cu',
  })
  const rests = asked.steps[asked.steps.length - 1]?.rests ?? source('protective conductor of the set', 'memory')
  if (run.protective === null)
    return worded({
      what: 'feed-protective',
      title: 'protective conductor of the feed',
      basis: 'code',
      rests,
      steps: asked.steps,
      verdict: 'fails',
      found: 'none',
      wanted: asked.value,
      said: `has no protective conductor in its feed, and its neutral is not bonded at the panel; ${asked.value} is asked.`,
    })
  return lower({
    what: 'feed-protective',
    title: 'protective conductor of the feed',
    basis: 'code',
    rests,
    steps: asked.steps,
    demandA: areaOf(view, run.protective.size),
    limitA: areaOf(view, asked.value),
    unit: 'mm²',
    symbols: ['S', 'S min'],
    said: `has a ${run.protective.size} protective conductor in its feed; ${asked.value} is asked.`,
  })
}

function electrodeCheck(view: BoxView, run: Run): Check {
  const { electrode } = view.box
  const asked = view.rules.electrodeConductorFor({
    line: run.line.size,
    metal: electrode.conductor.metal,
    electrode: electrode.kind,
  })
  const rests = asked.steps[asked.steps.length - 1]?.rests ?? source('electrode conductor of the set', 'memory')
  return lower({
    what: 'electrode-conductor',
    title: 'electrode conductor',
    basis: 'code',
    rests,
    steps: asked.steps,
    demandA: areaOf(view, electrode.conductor.size),
    limitA: areaOf(view, asked.value),
    unit: 'mm²',
    symbols: ['S', 'S min'],
    said: `has ${electrode.conductor.size} to its ${electrode.kind}; ${asked.value} is asked for a ${run.line.size} feed.`,
    mends:
      areaOf(view, electrode.conductor.size) < areaOf(view, asked.value)
        ? [{ path: 'electrode.conductor', value: asked.value, words: `${asked.value} to the electrode` }]
        : [],
  })
}
