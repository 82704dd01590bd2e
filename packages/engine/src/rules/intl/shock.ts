import type { LoadKind, Shock } from '../../job/index.ts'
import { put, type Source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure } from '../common/book.ts'
import type { RuleSet } from '../rule-set.ts'

type Task = Parameters<RuleSet['shockFor']>[0]

/** Form of residual current that a kind of load can cause: pulsating, mixed frequency, smooth direct. */
const FORM: Record<LoadKind, (phases: 1 | 3) => 'A' | 'F' | 'B'> = {
  heater: () => 'A',
  motor: () => 'A',
  mixed: () => 'A',
  electronic: () => 'A',
  charger: (phases) => (phases === 3 ? 'B' : 'A'),
  welder: (phases) => (phases === 3 ? 'B' : 'A'),
  drive: (phases) => (phases === 3 ? 'B' : 'F'),
}

/**
 * Shock protection of an outlet: sockets to 32 A 30 mA; larger sockets on a site of works at most 500 mA; fixed circuits only where the
 * set's figure says up to how many ampere (none in the base text, final circuits in some countries).
 * @source IEC 60364-4-41 411.3.3, IEC 60364-7-704. Provenance: memory
 */
export function intlShockFor(book: Book, task: Task): Worked<Shock> {
  const puts = [put('In', task.outlet.ratingA, 'A'), put('kind', task.kind)]
  const rcd = (mA: { readonly value: number; readonly rests: Source }, why: string): Worked<Shock> => {
    const form = FORM[task.kind](task.outlet.phases)
    return {
      value: { kind: 'rcd', sensitivityMA: mA.value, form },
      steps: [
        step('IΔn', why, puts, mA.value, 'mA', mA.rests),
        step('form', `for a load of this kind (${task.kind})`, puts, form, '', {
          place: 'IEC 60755, IEC 62423',
          provenance: 'memory',
        }),
      ],
    }
  }
  const none = (why: string, rests: Source): Worked<Shock> => ({
    value: { kind: 'none', sensitivityMA: null, form: null },
    steps: [step('IΔn', why, puts, 'none asked', '', rests)],
  })
  const socketTo = figure(book, 'socket-rcd-to')
  if (task.use === 'heat-trace') return rcd(figure(book, 'heat-trace-rcd'), 'heating cable')
  if (task.hardWired) {
    const to = figure(book, 'hard-wired-rcd-to')
    return task.outlet.ratingA <= to.value
      ? rcd({ value: figure(book, 'socket-rcd').value, rests: to.rests }, `final circuit to ${to.value} A`)
      : none('fixed connection', to.rests)
  }
  if (task.outlet.ratingA <= socketTo.value) return rcd(figure(book, 'socket-rcd'), `socket to ${socketTo.value} A`)
  const large = figure(book, 'large-socket-rcd')
  if (task.temporary === false) return none(`socket above ${socketTo.value} A, not on a site of works`, large.rests)
  return rcd(
    large,
    task.temporary === null ? 'socket on a site; nobody said it is not one of works' : 'socket on a site of works',
  )
}
