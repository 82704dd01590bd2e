import type { Shock, SizeName } from '../job/index.ts'
import { type Finding, type Mend, power } from '../kernel/index.ts'
import type { Bunch } from '../power/circuits/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** What rounds of the loop have asked for. Sizes only ever grow, so the loop ends. */
export interface Growth {
  readonly interruptingKA: number
  readonly lines: Readonly<Record<string, SizeName>>
  readonly cords: Readonly<Record<string, SizeName>>
  readonly families: Readonly<Record<string, string>>
  readonly shock: Readonly<Record<string, Shock>>
  readonly devices: Readonly<Record<string, number>>
  /** Raceways that circuits share, by box and circuit, where its walls are too full for one each; absent: none. */
  readonly together?: Readonly<Record<string, Readonly<Record<string, string>>>>
  /** What lies together with each circuit in a raceway longer than a nipple, or in a wireway, by box and circuit. */
  readonly beside?: Readonly<Record<string, Readonly<Record<string, readonly Bunch[]>>>>
  /** Metres of each run as the layout leads it, by box and circuit; absent until a layout is known. */
  readonly runsM?: Readonly<Record<string, Readonly<Record<string, number>>>>
}

export const NOTHING_GROWN: Growth = { interruptingKA: 0, lines: {}, cords: {}, families: {}, shock: {}, devices: {} }

/**
 * Growth by the first mend of every finding that fails, and after three rounds by all of its mends. A mend that a pin forbids is left
 * alone: the finding stands and names the pin. Null when nothing was added: the loop has ended.
 */
export function grownBy(
  growth: Growth,
  findings: readonly Finding[],
  pinned: ReadonlySet<string>,
  rules: RuleSet,
  round = 1,
): Growth | null {
  const late = round > EXACT_ROUNDS
  const jump = late ? power(4, round - EXACT_ROUNDS - 1) : 0
  let next = growth
  for (const finding of findings) {
    if (finding.verdict !== 'fails') continue
    const free = finding.mends.filter((m) => !pinned.has(m.path))
    for (const mend of late ? free : free.slice(0, 1)) next = withMend(next, mend, rules, jump)
  }
  return next === growth ? null : next
}

function withMend(growth: Growth, mend: Mend, rules: RuleSet, jump: number): Growth {
  const { head, id, what } = choiceAt(mend.path)
  if (head === 'panel' && id === 'interruptingKA' && typeof mend.value === 'number') {
    return mend.value > growth.interruptingKA ? { ...growth, interruptingKA: mend.value } : growth
  }
  if (head === 'cords' && id !== undefined && what === 'size')
    return grownSize(growth, 'cords', id, String(mend.value), rules, jump)
  if (head === 'circuits' && id !== undefined && what === 'line')
    return grownSize(growth, 'lines', id, String(mend.value), rules, jump)
  if ((head === 'feed' || head === 'panel') && mend.path.endsWith('line'))
    return grownSize(growth, 'lines', 'feed', String(mend.value), rules, jump)
  if (head === 'circuits' && id !== undefined && what === 'family') {
    return growth.families[id] === String(mend.value)
      ? growth
      : { ...growth, families: { ...growth.families, [id]: String(mend.value) } }
  }
  if (head === 'circuits' && id !== undefined && what === 'device' && typeof mend.value === 'number') {
    return (growth.devices[id] ?? 0) >= mend.value ? growth : { ...growth, devices: { ...growth.devices, [id]: mend.value } }
  }
  if (head === 'circuits' && id !== undefined && what === 'shock') {
    const shock = SHOCK[String(mend.value)]
    return shock === undefined || growth.shock[id]?.kind === shock.kind
      ? growth
      : { ...growth, shock: { ...growth.shock, [id]: shock } }
  }
  if (head === 'circuits' && id !== undefined && what === 'residualForm') {
    const form = String(mend.value) as Shock['form']
    const was = growth.shock[id]
    return was?.form === form ? growth : { ...growth, shock: { ...growth.shock, [id]: { ...(was ?? residual), form } } }
  }
  return growth
}

const residual: Shock = { kind: 'rcd', sensitivityMA: 30, form: 'A' }

/** Parts of a choice's path, `cords.BW1.1.size`: a tag may hold points. */
export function choiceAt(path: string): { readonly head: string; readonly id?: string; readonly what?: string } {
  const parts = /^([^.]+)\.(.+)\.([^.]+)$/.exec(path)
  if (parts !== null) return { head: parts[1]!, id: parts[2]!, what: parts[3]! }
  const [head = '', id] = path.split('.')
  return id === undefined ? { head } : { head, id }
}

/** What a mend that names a kind of residual protection puts in. */
export const SHOCK: Readonly<Record<string, Shock>> = {
  'class A': { kind: 'class A', sensitivityMA: 6, form: null },
  'equipment 30 mA': { kind: 'equipment 30 mA', sensitivityMA: 30, form: null },
  rcd: residual,
}

/** A heavier size, `jump` sizes past the one asked for; never past the end of the list, where growth ends. */
function grownSize(growth: Growth, kind: 'cords' | 'lines', id: string, size: SizeName, rules: RuleSet, jump: number): Growth {
  const order = kind === 'cords' ? rules.cordSizes() : rules.sizes.map((s) => s.name)
  const has = growth[kind][id]
  const at = order.indexOf(size)
  if (at < 0 || (has !== undefined && order.indexOf(has) >= at)) return growth
  return { ...growth, [kind]: { ...growth[kind], [id]: order[Math.min(order.length - 1, at + jump)] ?? size } }
}

/** Rounds that take exactly what a mend asks for; later ones quadruple their stride, so that hopeless growth meets the end of the list. */
const EXACT_ROUNDS = 3
