import type { Circuit, Shock } from '../../job/index.ts'
import {
  type Finding,
  formatQuantity,
  judgeEnds,
  judgeUpper,
  put,
  source,
  type Verdict,
  type Working,
  weakest,
} from '../../kernel/index.ts'
import { type Asked, inAmpere, lazyWorking, onSource } from './asked.ts'
import { hasWires } from './clearing-findings.ts'
import { faultSteps } from './fault-steps.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import { type BoxLevels, highestAt } from './levels.ts'
import type { FaultKind } from './result.ts'

type ResidualKind = Exclude<Shock['kind'], 'none'>
const KINDS: readonly ResidualKind[] = ['class A', 'equipment 30 mA', 'rcd']
/** Coldest air that ordinary ones are made for. @source UL 943, marked −35 °C; IEC 61008-1 and 61009-1, marked −25 °C. Provenance: memory */
const LEAST_C: Readonly<Record<ResidualKind, number>> = { 'class A': -35, 'equipment 30 mA': -35, rcd: -25 }
const WORDS: Readonly<Record<ResidualKind, string>> = {
  'class A': 'class A devices',
  'equipment 30 mA': 'equipment protection devices',
  rcd: 'residual devices',
}

/** Residual devices against what they hang on and the cold they stand in; facts of a box already built. */
export function deviceFindings(asked: Asked): Answered {
  const built = builtFindings(asked)
  return { findings: [...formFindings(asked), ...coldFindings(asked), ...built.findings], workings: built.workings }
}

const FORM_ORDER = ['AC', 'A', 'F', 'B'] as const

/** Forms that see the residual current of a load. @source IEC 60755, IEC 62423. Provenance: memory */
function wantedForm(
  asked: Asked,
  circuit: Circuit,
): { readonly form: (typeof FORM_ORDER)[number]; readonly sure: boolean; readonly why: string } | null {
  let wanted: ReturnType<typeof wantedForm> = null
  for (const tag of circuit.plugs) {
    const plug = asked.plugs.get(tag)
    const drive = plug?.kind === 'drive' || plug?.motor?.start === 'drive'
    const own =
      plug === undefined
        ? null
        : drive && plug.phases === 3
          ? { form: 'B' as const, sure: true, why: `${tag}, a three-phase drive, may leak smooth d.c.` }
          : drive
            ? { form: 'F' as const, sure: true, why: `${tag}, a one-phase drive, leaks mixed frequencies` }
            : plug.kind === 'charger'
              ? { form: 'F' as const, sure: false, why: `${tag}, a charger, may leak smooth d.c. where its maker says so` }
              : null
    if (own !== null && (wanted === null || FORM_ORDER.indexOf(own.form) > FORM_ORDER.indexOf(wanted.form))) wanted = own
  }
  return wanted
}

function formFindings(asked: Asked): readonly Finding[] {
  const out: Finding[] = []
  for (const circuit of asked.box.circuits) {
    if (circuit.shock.kind !== 'rcd' || circuit.shock.form === null) continue
    const wanted = wantedForm(asked, circuit)
    if (wanted === null) continue
    const enough = FORM_ORDER.indexOf(circuit.shock.form) >= FORM_ORDER.indexOf(wanted.form)
    const verdict: Verdict = enough ? 'holds' : wanted.sure ? 'fails' : circuit.shock.form === 'AC' ? 'fails' : 'unknown'
    out.push({
      code: 'faults/residual-form',
      question: 'faults',
      subject: circuit.id,
      verdict,
      basis: 'maker',
      said: enough
        ? `${wanted.why}: its residual device of form ${circuit.shock.form} sees that.`
        : `${wanted.why}: a residual device of form ${circuit.shock.form} may be blinded by it; form ${wanted.form} ${wanted.sure ? 'is needed' : 'or B, as its maker says'}.`,
      provenance: 'memory',
      confirm: true,
      assumed: [],
      workings: [],
      mends: enough
        ? []
        : [
            {
              path: `circuits.${circuit.id}.residualForm`,
              value: wanted.form,
              words: `a residual device of form ${wanted.form}`,
            },
          ],
      decides: whoDecides(asked.box),
    })
  }
  return out
}

/** Residual devices in the cold: one finding a box and kind. What was told of the outlets as built goes for the class A devices. */
const coldFindings = (asked: Asked): readonly Finding[] => KINDS.flatMap((kind) => coldFinding(asked, kind))

function coldFinding(asked: Asked, kind: ResidualKind): readonly Finding[] {
  const { site } = asked.inputs.job
  const built = kind === 'class A' ? asked.inputs.job.built : null
  const circuits = asked.box.circuits.filter((c) => hasWires(c) && c.shock.kind === kind)
  const outsideC = site.extremeMinC ?? site.designMinC
  if (circuits.length === 0 && built?.outletDeviceMinC === undefined) return []
  if (circuits.length === 0 && (built === null || built.outletDeviceMinC === null)) return []
  const leastC = built?.outletDeviceMinC ?? LEAST_C[kind]
  const inside = asked.wanted?.insideColdC
  if (outsideC !== null && outsideC >= leastC) return []
  const at = (c: number): Verdict => (c >= leastC ? 'holds' : 'fails')
  // In the outlet outside it is too cold; in the panel it stands at the inside's temperature.
  const insideVerdict: Verdict = inside === undefined ? 'unknown' : judgeEnds(at(inside.low), at(inside.high))
  const verdict: Verdict = outsideC === null ? 'unknown' : insideVerdict === 'holds' ? 'tight' : insideVerdict
  const c = (value: number) => formatQuantity(value, 'C')
  const where =
    inside === undefined
      ? ''
      : ` In the panel they stand at ${inside.low === inside.high ? c(inside.low) : `${c(inside.low)} to ${c(inside.high)}`}${inside.computed === true ? ', by the coldest hour of its year and the record outside; after an outage they may be as cold as outside' : ''}.`
  return [
    {
      code: 'faults/residual-cold',
      question: 'faults',
      subject: asked.box.box,
      verdict,
      basis: 'maker',
      said:
        outsideC === null
          ? `Its ${WORDS[kind]} are not rated below ${c(leastC)}; nobody has said how cold this site gets.`
          : `${circuits.length > 0 ? `${circuits.length} ${WORDS[kind]}` : 'The outlet devices as built'} are not rated below ${c(leastC)}; this site sees ${c(outsideC)}: outside, in the outlet, they may not trip.${where}${insideVerdict === 'holds' ? ' Put them there, not in the outlets.' : ''}`,
      demand: put('T', outsideC ?? 'unknown', 'C'),
      limit: put('T least', leastC, 'C'),
      provenance: built?.outletDeviceMinC != null ? 'told' : 'memory',
      confirm: true,
      assumed: inside === undefined || inside.told ? [] : [`boxes.${asked.box.box}.inside-cold`],
      workings: [],
      mends: [],
      decides: whoDecides(asked.box),
    },
  ]
}

function builtFindings(asked: Asked): Answered {
  const { built } = asked.inputs.job
  if (built === null) return { findings: [], workings: [] }
  const out: Finding[] = []
  const workings: Working[] = []
  // At the point of supply: what its old service conductors took off there is worth nothing here.
  const highest = asked.positions.reduce<{
    readonly currentA: number
    readonly kind: FaultKind
    readonly levels: BoxLevels
  } | null>((worst, levels) => {
    const high = highestAt(levels.service, levels.voltageFactor.max, asked.temperatures.coldC)
    return high !== null && (worst === null || high.currentA > worst.currentA)
      ? { currentA: high.currentA, kind: high.kind, levels }
      : worst
  }, null)
  const builtA = built.interruptingKA * 1000
  if (highest !== null) {
    const asBuilt = judgeUpper(highest.currentA, builtA)
    const id = asked.name(`${asked.box.box}/built-interrupting`)
    const { levels } = highest
    workings.push(
      lazyWorking({
        id,
        title: `Highest fault at the point of supply against ${asked.box.box} as built`,
        steps: () => faultSteps(levels, levels.service, highest.kind, 'strong', { at: 'source' }),
        judgement: {
          demand: put('I', highest.currentA, 'A'),
          relation: '≤',
          limit: put('I as built', builtA, 'A'),
          tight: '10 %',
          rests: source('what was built, as told', 'told'),
        },
      }),
    )
    const changed =
      asked.box.panel.interruptingKA > built.interruptingKA && asked.box.panel.main.interruptingKA > built.interruptingKA
    out.push({
      code: 'faults/built-interrupting',
      question: 'faults',
      subject: asked.box.box,
      verdict: changed && asBuilt === 'fails' ? 'holds' : asBuilt,
      basis: 'code',
      said: `As built it interrupts ${inAmpere(builtA)}; here up to ${inAmpere(highest.currentA)} may flow at the point of supply ${onSource(highest.levels)}${asBuilt === 'fails' ? (changed ? ': this design changes panel and main' : ', and what held at the old place proves nothing here') : ''}.`,
      demand: put('I', highest.currentA, 'A'),
      limit: put('I as built', builtA, 'A'),
      provenance: weakest('told', highest.levels.source.strong.provenance),
      confirm: true,
      assumed: highest.levels.assumed,
      workings: [id],
      mends:
        asBuilt === 'fails' && !changed
          ? [
              {
                path: 'panel.interruptingKA',
                value: nextKA(asked, highest.currentA),
                words: 'panel and main of a higher interrupting rating',
              },
            ]
          : [],
      decides: whoDecides(asked.box),
    })
  }
  if (built.defects.length > 0) {
    out.push({
      code: 'faults/open-defects',
      question: 'faults',
      subject: asked.box.box,
      verdict: 'unknown',
      basis: 'house',
      said: `Open defects: ${built.defects.map((d) => d.replace(/\.$/, '')).join('; ')}. Whether they touch the protection nobody has said: mend and test before anybody decides on switching it on.`,
      provenance: 'told',
      assumed: [],
      workings: [],
      mends: [],
      decides: whoDecides(asked.box),
    })
  }
  return { findings: out, workings }
}

const nextKA = (asked: Asked, currentA: number): number =>
  asked.inputs.rules.interruptingStepsKA(asked.system, true).find((kA) => kA * 1000 >= currentA) ?? Math.ceil(currentA / 1000)
