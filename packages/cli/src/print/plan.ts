import type { PlanResult } from '@plugstead/engine/plan'
import { moneyText } from './number.ts'
import { wrapped } from './wrap.ts'

/** The design that was chosen in a few lines, the next best, and why every other one lost. */
export function planText(found: PlanResult): string {
  const { chosen, runnersUp, lost, sound, pinsInTheWay, tried, currency } = found
  const cost = (one: PlanResult['chosen']) =>
    `${one.costIsFloor && one.costMoney !== null ? 'at least ' : ''}${moneyText(one.costMoney, currency)}`
  const head = wrapped(`Design: ${chosen.id}, ${cost(chosen)}${chosen.ready === null ? '' : `, ready ${chosen.ready}`}`)
  const trouble = sound
    ? []
    : [wrapped(`None of the ${tried} designs tried is free of failures; this one has the fewest: ${chosen.fails.join(', ')}.`)]
  const pins = pinsInTheWay.length === 0 ? [] : [wrapped(`Without what is pinned at ${pinsInTheWay.join(', ')} there is one.`)]
  const others = [
    ...runnersUp.map((one) => `${one.id}: runner-up, ${cost(one)}${one.ready === null ? '' : `, ready ${one.ready}`}`),
    ...lost.map((one) => `${one.id}: lost, ${one.why}`),
  ].map((line) => wrapped(line, { indent: 2, hang: 4 }))
  const beside = others.length === 0 ? [] : [[OTHERS, ...others].join('\n')]
  return [[head, ...trouble, ...pins, ...boxLines(found)].join('\n'), ...beside].join('\n\n')
}

const OTHERS = wrapped(
  'Other designs, costed by their sizes alone: not laid out, with heater and fan by house rule, not as the year of hours would choose them',
)

function boxLines({ design }: PlanResult): readonly string[] {
  return design.boxes.map((box) => {
    const circuits = box.circuits.filter((circuit) => circuit.plugs.length > 0).length
    const where = design.boxes.some((other) => other.phase !== box.phase) ? ` in ${box.phase}` : ''
    const parts = [
      `${box.serviceA} A from ${box.offer}${box.interim === null ? '' : `, until then ${box.interim}`}`,
      `panel ${box.panel.busA} A, ${box.panel.ways} ways`,
      `${circuits} circuits with plugs`,
      box.staging.control === 'none' ? 'starts not held apart' : `starts held apart by ${box.staging.control}`,
    ]
    return wrapped(`${box.box}${where}: ${parts.join('; ')}`, { indent: 2, hang: 4 })
  })
}
