import type { Shock } from '../../job/index.ts'
import { put, type Source, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure } from '../common/book.ts'
import type { RuleSet } from '../rule-set.ts'

type Task = Parameters<RuleSet['shockFor']>[0]

/** Receptacle forms that Rules 26-704 and 76-016 name. */
const NAMED = ['5-15R', '5-20R'] as const

/**
 * Shock protection of an outlet: class A for 5-15R and 5-20R outdoors within reach of grade, vehicle-heater receptacles excepted; for
 * the same forms in a temporary installation (or when nobody said it is not one); heat trace has equipment protection.
 * @source CE Code Rules 26-704, 76-016, 62-116. Provenance: memory
 */
export function caShockFor(book: Book, task: Task): Worked<Shock> {
  const within = figure(book, 'shock-within')
  const puts = [put('outlet', task.outlet.id), put('use', task.use)]
  const none = (why: string, rests: Source): Worked<Shock> => ({
    value: { kind: 'none', sensitivityMA: null, form: null },
    steps: [step('shock', why, puts, 'none asked', '', rests)],
  })
  const classA = (why: string, rests: Source): Worked<Shock> => {
    const mA = figure(book, 'shock-class-a')
    return {
      value: { kind: 'class A', sensitivityMA: mA.value, form: null },
      steps: [step('shock', why, puts, 'class A', '', rests)],
    }
  }
  const named = !task.hardWired && NAMED.some((id) => id === task.outlet.id)
  if (named && task.temporary !== false) {
    const why =
      task.temporary === null ? 'nobody said it is not temporary: the stricter rule' : 'receptacle of a temporary installation'
    return classA(why, source('CE Code Rule 76-016', 'memory'))
  }
  if (task.use === 'heat-trace') {
    const mA = figure(book, 'heat-trace-equipment')
    return {
      value: { kind: 'equipment 30 mA', sensitivityMA: mA.value, form: null },
      steps: [step('shock', 'heat trace: equipment protection', puts, `${mA.value} mA`, '', mA.rests)],
    }
  }
  if (!named) return none(task.hardWired ? 'fixed connection, not a receptacle' : 'not a form that the rule names', within.rests)
  if (task.use === 'vehicle-heater') return none('vehicle-heater receptacle, excepted', within.rests)
  if (!task.outdoors) return none('dry, indoors', within.rests)
  if (task.aboveGradeM !== undefined && task.aboveGradeM > within.value)
    return none(`more than ${within.value} m above grade`, within.rests)
  return classA(`outdoors within ${within.value} m of grade`, within.rests)
}
