import { Fault } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

/** Outside diameter of a raceway, mm; the kinds the table lacks are those of a rigid conduit. @throws Fault `fit/raceway-unknown` */
export function outsideMm(kind: string, trade: string): number {
  const rows: readonly (readonly [string, string, number])[] = tables['raceway-outside'].rows
  const row = rows.find(([k, t]) => k === kind && t === trade) ?? rows.find(([k, t]) => k === 'RMC' && t === trade)
  if (row === undefined) throw new Fault('fit/raceway-unknown', `${kind} ${trade}`)
  return row[2]
}
