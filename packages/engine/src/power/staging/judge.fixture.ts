import load, { type Highs } from 'highs'
import type { HardDay } from './hard-days.fixture.ts'

/** Its types say that it is a CommonJS module; what is imported is the function itself. */
export const loadHighs = load as unknown as typeof load.default

/**
 * The least peak of a day by HiGHS: an integer program with one unknown for every run and start (hours counted here, nothing shared with the
 * search), least z over every leg and quarter-hour. Null unless the solver calls its answer optimal.
 */
export function judgedPeakA(highs: Highs, { tasks, objective }: HardDay, mostNodes: number): number | null {
  const on = new Map<string, string[]>()
  const choices = tasks.map((task, i) => {
    const starts = Math.floor((task.windowH - task.runH) * 4 + 1e-6) + 1
    return Array.from({ length: starts }, (_, k) => {
      const name = `x${i}_${k}`
      for (let q = 0; q < task.runH * 4; q++) {
        const slot = (task.fromH * 4 + k + q) % 96
        for (const leg of objective.primary) {
          const a = task.load[leg] ?? 0
          if (a > 0) on.set(`${leg}_${slot}`, [...(on.get(`${leg}_${slot}`) ?? []), `${a} ${name}`])
        }
      }
      return name
    })
  })
  const program = [
    'Minimize',
    'peak: z',
    'Subject To',
    ...choices.map((names, i) => `once${i}: ${names.join(' + ')} = 1`),
    ...[...on].map(([key, terms]) => `at${key}: ${terms.join(' + ')} - z <= 0`),
    'Binary',
    choices.flat().join(' '),
    'End',
  ].join('\n')
  const answer = highs.solve(program, { mip_rel_gap: 0, mip_abs_gap: 1e-6, mip_max_nodes: mostNodes })
  return answer.Status === 'Optimal' ? answer.ObjectiveValue : null
}
