import { type Finding, judgeUpper, put, source, step, type Verdict, type Working, weakest, worst } from '../../kernel/index.ts'
import type { CordReach } from './result.ts'
import type { Setting } from './setting.ts'
import type { SolvedState } from './states.ts'

/** The jacket's mark must be this much colder than the site's design minimum. */
const COLD_MARGIN_K = 5

export interface CordsJudged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly cords: readonly CordReach[]
}

/** Ampacity and cold mark of every cord of a panel, at what flows in it with all its plugs on. */
export function cordFindings(
  setting: Setting,
  panel: number,
  longest: ReadonlyMap<string, CordReach['longest']>,
  drops: ReadonlyMap<string, { readonly dropV: number; readonly dropPct: number; readonly verdict: Verdict }>,
): CordsJudged {
  const { inputs, ends, suffix } = setting
  const yard = ends.weak
  const state = setting.states[0]!
  const findings: Finding[] = []
  const workings: Working[] = []
  const cords: CordReach[] = []
  yard.cords.forEach((cord, c) => {
    const at = yard.circuits[cord.circuit]!
    if (at.panel !== panel || cord.segment === null) return
    const tag = cord.segment.id.replace(/\/cord$/, '')
    const design = at.circuit.cords.find((x) => x.plug === tag)!
    const three = yard.plugs.some((p) => p.cord === c && p.elements.length === 3)
    const ampacity = setting.cordAmpacity(design.size, design.type, three ? 3 : 2)
    const { currentA, told } = cordCurrent(setting, state, c)
    const id = `${tag}/cord${suffix}`
    const verdict = judgeUpper(currentA, ampacity.value, 0)
    const rests = ampacity.steps[0]?.rests ?? source('cord ampacity', 'memory')
    const provenance = weakest(...ampacity.steps.map((s) => s.rests.provenance))
    const sizes = inputs.rules.cordSizes()
    const next = sizes
      .slice(sizes.indexOf(design.size) + 1)
      .find((size) => setting.cordAmpacity(size, design.type, three ? 3 : 2).value >= currentA)
    findings.push({
      code: 'reach/cord-ampacity',
      question: 'reach',
      subject: tag,
      verdict,
      basis: 'code',
      provenance,
      ...(provenance === 'memory' ? { confirm: true } : {}),
      said: `${tag}: ${currentA.toFixed(1)} A flow in ${design.size} ${design.type} cord; it carries ${ampacity.value.toFixed(1)} A in air of ${setting.ambientC} °C.`,
      demand: put('I', currentA, 'A'),
      limit: put('I cord', ampacity.value, 'A'),
      assumed: setting.inputs.job.site.designMaxC === null ? ['facts.site.climate.designMax'] : [],
      workings: [id],
      mends:
        verdict === 'fails' && next !== undefined
          ? [{ path: `cords.${tag}.size`, value: next, words: `${next} cord instead of ${design.size}` }]
          : [],
    })
    workings.push({
      id,
      title: `Cord of ${tag}`,
      steps: [step('I', told, [], currentA, 'A', source('loads of the cord together', 'computed')), ...ampacity.steps],
      judgement: {
        demand: put('I', currentA, 'A'),
        relation: '≤',
        limit: put('I cord', ampacity.value, 'A'),
        tight: 'none',
        rests,
      },
    })
    const cold = coldFinding(setting, tag, design.type, design.jacketMinC)
    findings.push(cold.finding)
    const drop = drops.get(tag)
    cords.push({
      plug: tag,
      circuit: at.circuit.id,
      type: design.type,
      size: design.size,
      lengthM: design.lengthM,
      currentA,
      ampacityA: ampacity.value,
      dropV: drop?.dropV ?? NaN,
      dropPct: drop?.dropPct ?? NaN,
      jacketMinC: cold.markC,
      neededMinC: cold.neededC,
      verdict: worst([verdict, cold.finding.verdict, drop?.verdict ?? 'unknown']),
      longest: longest.get(tag) ?? [],
    })
  })
  return { findings, workings, cords }
}

/** Amperes in the phase conductors of a cord: the network's, or, without a solution, those on the plates. */
function cordCurrent(setting: Setting, state: SolvedState, c: number): { readonly currentA: number; readonly told: string } {
  const yard = setting.ends.weak
  const plates = yard.plugs.filter((p) => p.cord === c).reduce((a, p) => a + (p.plug?.currentA ?? 0), 0)
  if (state.weak.outcome !== 'solved') return { currentA: plates, told: 'currents on the plates (the network has no solution)' }
  let most = 0
  for (let w = 0; w < 3; w++)
    most = Math.max(most, Math.hypot(state.weak.cordA[8 * c + 2 * w]!, state.weak.cordA[8 * c + 2 * w + 1]!))
  return plates > most
    ? { currentA: plates, told: 'currents on the plates' }
    : { currentA: most, told: 'network solution, everything on' }
}

function coldFinding(
  setting: Setting,
  tag: string,
  type: string,
  markedC: number | null,
): { readonly finding: Finding; readonly markC: number | null; readonly neededC: number | null } {
  const { job, rules } = setting.inputs
  const table = rules.cordColdC(type)
  const markC = markedC ?? table.value
  const minC = job.site.designMinC
  const neededC = minC === null ? null : minC - COLD_MARGIN_K
  const verdict: Verdict = markC === null || neededC === null ? 'unknown' : markC <= neededC ? 'holds' : 'fails'
  const provenance = weakest('common practice', ...(markedC === null ? table.steps.map((s) => s.rests.provenance) : []))
  const said =
    neededC === null
      ? `${tag}: the coldest day of the site is not known, so its cord's jacket cannot be judged.`
      : markC === null
        ? `${tag}: no cold mark is known for ${type}; ${neededC} °C or colder is wanted on the jacket.`
        : `${tag}: the jacket of ${type} is ${markedC === null ? 'usually marked' : 'marked'} ${markC} °C; ${neededC} °C or colder is wanted.`
  return {
    markC,
    neededC,
    finding: {
      code: 'reach/cord-cold',
      question: 'reach',
      subject: tag,
      verdict,
      basis: 'maker',
      provenance,
      said,
      ...(markC === null || neededC === null ? {} : { demand: put('T jacket', markC, '°C'), limit: put('T', neededC, '°C') }),
      assumed: markedC === null ? [`choices.cords.${tag}.jacketMin`] : [],
      workings: [],
      mends: [],
      caution: 'Take the number printed on the jacket: a stiff jacket cracks when the cord is moved.',
    },
  }
}
