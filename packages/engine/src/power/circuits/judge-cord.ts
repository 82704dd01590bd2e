import type { Cord } from '../../job/index.ts'
import { source } from '../../kernel/index.ts'
import type { BoxView, CircuitView } from './box-view.ts'
import { type Check, lower, shown, upper, worded } from './check.ts'
import { COLD_MARGIN_K, CORD_AMBIENT_C, cordLoaded } from './cord.ts'

export interface JudgedCord {
  readonly cord: Cord
  readonly plugs: readonly string[]
  readonly currentA: number
  readonly ampacityA: number
  readonly checks: readonly Check[]
}

/** Step 8: every cord once, with all the plugs that hang on it. */
export function judgedCords(view: BoxView, c: CircuitView): readonly JudgedCord[] {
  return c.circuit.cords
    .filter((cord) => cord.sharedWith === undefined)
    .map((cord) => {
      const group = c.outlets.find((o) => o.some((l) => l.plug.tag === cord.plug)) ?? []
      const currentA = group.reduce((s, l) => s + l.currentA, 0)
      const plugs = group.length === 0 ? [cord.plug] : group.map((l) => l.plug.tag)
      return judged(view, c, cord, plugs, currentA, Math.max(0, ...group.map((l) => l.plug.cordM)))
    })
}

function judged(
  view: BoxView,
  c: CircuitView,
  cord: Cord,
  plugs: readonly string[],
  currentA: number,
  wantedM: number,
): JudgedCord {
  const { rules, inputs } = view
  const { site } = inputs.job
  const sizes = rules.cordSizes()
  const motor = c.loads.some((l) => l.motor)
  const ambientC = site.designMaxC ?? CORD_AMBIENT_C
  if (!sizes.includes(cord.size)) {
    const check = worded({
      what: 'cord-ampacity',
      title: 'cord of the set',
      basis: 'code',
      rests: source(`cord sizes of ${rules.title}`, 'told'),
      verdict: 'unknown',
      found: cord.size,
      wanted: 'a size of the table',
      said: `is ${cord.size}, which the cord table of the set does not list.`,
    })
    return { cord, plugs, currentA, ampacityA: Number.NaN, checks: [check] }
  }
  const loaded = cordLoaded(c.circuit.connection)
  const ampacity = rules.cordAmpacityA({ size: cord.size, type: cord.type, loaded, ambientC })
  const rests = ampacity.steps[0]?.rests ?? source('cord ampacity of the set', 'memory')
  const enough = sizes.find(
    (size) =>
      rules.cordAmpacityA({ size, type: cord.type, loaded, ambientC }).value >=
      Math.max(currentA, motor ? 0 : c.circuit.device.ratingA),
  )
  const mends =
    enough === undefined
      ? []
      : [{ path: `cords.${cord.plug}.size`, value: enough, words: `a ${enough} cord in place of ${cord.size}` }]
  const assumed = site.designMaxC === null ? ['facts.site.design-max'] : []
  const carries = upper({
    what: 'cord-ampacity',
    title: 'current in the cord',
    basis: 'code',
    rests,
    steps: ampacity.steps,
    demandA: currentA,
    limitA: ampacity.value,
    tightFrac: 0.1,
    symbols: ['I', 'Iz'],
    assumed,
    mends: currentA > ampacity.value ? mends : [],
    said: `carries ${shown(currentA)} A on ${cord.size} ${cord.type}, which may carry ${shown(ampacity.value)} A.`,
  })
  const checks: Check[] = [carries]
  if (!motor && ampacity.value < c.circuit.device.ratingA * (1 - 1e-9) && currentA <= ampacity.value) {
    checks.push(
      worded({
        what: 'cord-protected',
        title: 'cord behind its device',
        basis: 'house',
        rests: source(
          'a cord that its device protects; made-up cords of smaller size are allowed in places (240.5(B))',
          'memory',
        ),
        verdict: 'tight',
        relation: '≥',
        found: `${shown(ampacity.value)} A`,
        wanted: `${c.circuit.device.ratingA} A`,
        said: `is ${cord.size} (${shown(ampacity.value)} A) behind a ${c.circuit.device.ratingA} A device: an overload of the cord does not open it.`,
        mends,
      }),
    )
  }
  checks.push(jacketCheck(view, cord))
  if (wantedM > 0) {
    checks.push(
      lower({
        what: 'cord-length',
        title: 'length of the cord',
        basis: 'house',
        rests: source('length wanted, as written', 'told'),
        steps: [],
        demandA: cord.lengthM,
        limitA: wantedM,
        unit: 'm',
        symbols: ['l', 'l wanted'],
        grave: false,
        said: `is ${shown(cord.lengthM)} m long; the machine stands ${shown(wantedM)} m away.`,
      }),
    )
  }
  return { cord, plugs, currentA, ampacityA: ampacity.value, checks }
}

/** Mark on the jacket against the design minimum less 5 K, told or unknown. */
function jacketCheck(view: BoxView, cord: Cord): Check {
  const { site } = view.inputs.job
  const marked = cord.jacketMinC ?? view.rules.cordColdC(cord.type).value
  const rests = source('jacket mark at or below the design minimum less 5 K', 'common practice')
  const base = { what: 'cord-cold', title: 'jacket of the cord in the cold', basis: 'maker' as const, rests, grave: false }
  if (site.designMinC === null)
    return worded({
      ...base,
      verdict: 'unknown',
      found: marked === null ? 'no mark' : `${marked} °C`,
      wanted: 'the design minimum of the place',
      said: `is marked ${marked === null ? 'nothing' : `${marked} °C`}; nobody told how cold the place gets.`,
    })
  const wantedC = site.designMinC - COLD_MARGIN_K
  if (marked === null) {
    const verdict = site.designMinC < UNMARKED_TO_C ? 'fails' : 'unknown'
    return worded({
      ...base,
      verdict,
      found: 'no mark',
      wanted: `${shown(wantedC)} °C`,
      said: `has no cold mark; a cord without one is not for moving below ${UNMARKED_TO_C} °C, and the place is designed for ${shown(site.designMinC)} °C.`,
    })
  }
  const verdict = marked <= wantedC ? 'holds' : marked <= site.designMinC ? 'tight' : 'fails'
  return worded({
    ...base,
    verdict,
    relation: '≤',
    found: marked,
    wanted: wantedC,
    unit: '°C',
    said: `has a jacket marked ${shown(marked)} °C; the place is designed for ${shown(site.designMinC)} °C, and ${shown(wantedC)} °C is wanted.`,
  })
}

/** @source a cord without a cold mark is not for moving below −10 °C. Provenance: common practice */
const UNMARKED_TO_C = -10
