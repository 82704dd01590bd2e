import type { BoxDesign, SizeName, SourceMode } from '../../job/index.ts'
import { type Complex, cx, Fault, type Source, type Worked } from '../../kernel/index.ts'
import type { Inputs } from '../inputs.ts'
import { modesOf } from '../path.ts'
import type { VoltageLimit } from './result.ts'
import { type Ends, type SolvedState, solvedStates } from './states.ts'
import { type YardTask, yardOf } from './yard.ts'

/** Rated temperature of flexible cords of the tables. @source NEC Table 400.5(A)(1), IEC H07RN-F: 60 °C. Provenance: memory */
export const CORD_C = 60
/** Air around a cord when nobody told the site's highest. Provenance: common practice */
export const CORD_AMBIENT_C = 40

/** Working temperature of a loaded conductor by its insulation; North American building wire by its 75 °C terminals. Provenance: memory */
export function conductorC(insulation: string): number {
  if (/^PVC/.test(insulation)) return 70
  return /^(XLPE|EPR)/.test(insulation) ? 90 : 75
}

/** One source feeding the boxes that hang on it, solved in all its states. */
export interface Setting {
  readonly inputs: Inputs
  readonly root: BoxDesign
  readonly mode: SourceMode
  readonly offer: string
  readonly task: YardTask
  readonly ends: Ends
  readonly states: readonly SolvedState[]
  /** States that the limits are held to: all on, or, where an interlock holds, the hours as staged. */
  readonly governing: readonly SolvedState[]
  /** Paths of what was not told. */
  readonly assumed: readonly string[]
  /** Behind ids: empty for the stay's own source where only one phase exists. */
  readonly suffix: string
  /** Impedance of a cord per metre at its working temperature, each size asked once. */
  readonly cordOhmPerM: (size: SizeName) => Complex
  /** Ampacity of a cord type by size, each asked once. */
  readonly cordAmpacityA: (type: string, loaded: 2 | 3) => (size: SizeName) => number
  readonly cordAmpacity: (size: SizeName, type: string, loaded: 2 | 3) => Worked<number>
  /** Air around the cords. */
  readonly ambientC: number
}

/** Every source of every box that is not fed from another box. */
export function settingsOf(inputs: Inputs): readonly Setting[] {
  const { job, design } = inputs
  const phases = new Set(design.boxes.map((b) => b.phase))
  return design.boxes
    .filter((b) => b.fedFrom === null)
    .flatMap((root) =>
      modesOf(root, job).map(({ mode, offer }) => {
        const names = [offer === root.offer ? '' : mode, phases.size > 1 ? root.phase : ''].filter((s) => s !== '')
        return settingOf(inputs, root, mode, offer, names.length === 0 ? '' : `, ${names.join(', ')}`)
      }),
    )
}

function settingOf(inputs: Inputs, root: BoxDesign, mode: SourceMode, offer: string, suffix: string): Setting {
  const { job, rules } = inputs
  const task: YardTask = {
    ...inputs,
    mode,
    end: 'weak',
    state: 'steady',
    tolerance: false,
    conductorC: conductorC(root.panel.feed.line.insulation),
    cordC: CORD_C,
    powerFactor: 'low',
  }
  const weak = yardOf(root, task)
  const untold = weak.plugs.flatMap((p) =>
    p.plug === null || p.plug.powerFactorFrac.told || p.plug.currentTold ? [] : [`needs.machines.${p.plug.row}.powerFactor`],
  )
  const assumed = [...new Set([...weak.panels.flatMap((p) => p.tree.assumed.map((a) => a.path)), ...untold])]
  const bounded = assumed.length > 0
  const ends: Ends = { weak, strong: bounded ? yardOf(root, { ...task, end: 'strong', powerFactor: 'high' }) : weak, bounded }
  const hoursGovern = root.staging.control === 'interlock'
  const states = solvedStates(ends, hoursGovern)
  const governing = hoursGovern && states.length > 1 ? states.slice(1) : states.slice(0, 1)
  const known = new Map<string, Complex>()
  const cordOhmPerM = (size: SizeName): Complex => {
    let z = known.get(size)
    if (z === undefined) {
      const { r, x } = rules.impedanceOhmPerM({ size, metal: 'cu', where: 'cord', temperatureC: CORD_C }).value
      z = cx(r, x)
      known.set(size, z)
    }
    return z
  }
  const ambientC = job.site.designMaxC ?? CORD_AMBIENT_C
  const carried = new Map<string, Worked<number>>()
  const cordAmpacity = (size: SizeName, type: string, loaded: 2 | 3): Worked<number> => {
    const key = `${type}|${loaded}|${size}`
    let a = carried.get(key)
    if (a === undefined) {
      a = rules.cordAmpacityA({ size, type, loaded, ambientC })
      carried.set(key, a)
    }
    return a
  }
  const cordAmpacityA =
    (type: string, loaded: 2 | 3) =>
    (size: SizeName): number =>
      cordAmpacity(size, type, loaded).value
  if (job.offers.find((o) => o.id === offer) === undefined) throw new Fault('power/no-source', offer)
  return {
    inputs,
    root,
    mode,
    offer,
    task,
    ends,
    states,
    governing,
    assumed,
    suffix,
    cordOhmPerM,
    cordAmpacityA,
    cordAmpacity,
    ambientC,
  }
}

/** Drop limit of a plug here. */
export function limitOf(setting: Setting, plug: number): VoltageLimit & { readonly rests: Source } {
  const { ends, inputs, mode } = setting
  const p = ends.weak.plugs[plug]!
  const circuit = ends.weak.circuits[p.circuit]!
  const feedM = ends.weak.panels[circuit.panel]!.tree.box.panel.feed.lengthM
  const found = inputs.rules.dropLimit({
    kind: p.plug?.kind ?? 'mixed',
    privateSource: mode === 'own set',
    lengthM: feedM + circuit.circuit.run.lengthM,
    lighting: circuit.circuit.own === 'light',
  })
  return {
    branchFrac: found.branchFrac,
    totalFrac: found.totalFrac,
    basis: found.basis,
    place: found.rests.place,
    rests: found.rests,
  }
}
