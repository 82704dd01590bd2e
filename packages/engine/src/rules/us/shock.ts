import type { Shock } from '../../job/index.ts'
import { put, type Source, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure } from '../common/book.ts'
import { toEarthV } from '../common/lists.ts'
import type { RuleSet } from '../rule-set.ts'

type Task = Parameters<RuleSet['shockFor']>[0]

/**
 * Shock protection of an outlet. Receptacles outdoors: class A up to 150 V to earth, one-phase to 50 A, three-phase to 100 A; temporary
 * (or nobody said it is not): all receptacles up to that voltage; heat trace: equipment protection; no exception for vehicle heaters.
 * @source NEC 210.8(B), 590.6, 625.54, 427.22. Provenance: memory
 */
export function usShockFor(book: Book, task: Task): Worked<Shock> {
  const earthV = toEarthV(task.system, task.outlet.connection)
  const highest = figure(book, 'shock-to-ground')
  const most = figure(book, task.outlet.phases === 1 ? 'shock-single-phase-to' : 'shock-three-phase-to')
  const puts = [put('U to earth', Math.round(earthV), 'V'), put('In', task.outlet.ratingA, 'A')]
  const classA = (why: string, rests: Source): Worked<Shock> => {
    const mA = figure(book, 'shock-class-a')
    return {
      value: { kind: 'class A', sensitivityMA: mA.value, form: null },
      steps: [step('shock', why, puts, 'class A', '', rests)],
    }
  }
  const equipment = (): Worked<Shock> => {
    const mA = figure(book, 'heat-trace-equipment')
    return {
      value: { kind: 'equipment 30 mA', sensitivityMA: mA.value, form: null },
      steps: [step('shock', 'heat trace: equipment protection', puts, `${mA.value} mA`, '', mA.rests)],
    }
  }
  const none = (why: string, rests: Source): Worked<Shock> => ({
    value: { kind: 'none', sensitivityMA: null, form: null },
    steps: [step('shock', why, puts, 'none asked', '', rests)],
  })
  if (task.hardWired) return task.use === 'heat-trace' ? equipment() : none('fixed connection, not a receptacle', highest.rests)
  const lowVolts = earthV <= highest.value
  if (task.temporary !== false && lowVolts) {
    const why =
      task.temporary === null
        ? 'receptacle; nobody said it is not temporary: the stricter rule'
        : 'receptacle of a temporary installation'
    return classA(why, source('NEC 590.6', 'memory'))
  }
  if (task.use === 'charger' && lowVolts) return classA('receptacle for charging a vehicle', source('NEC 625.54', 'memory'))
  if (task.outdoors && lowVolts && task.outlet.ratingA <= most.value) return classA('receptacle outdoors', highest.rests)
  if (task.use === 'heat-trace') return equipment()
  if (!task.outdoors) return none('dry, indoors', highest.rests)
  return none(lowVolts ? `above ${most.value} A` : `above ${highest.value} V to earth`, lowVolts ? most.rests : highest.rests)
}
