import type { RuleSetId } from '../job/index.ts'
import type { Table } from './rule-set.ts'

/** Whose tables a set reads beside its own: `ca` takes some from `us`, and says so where they are shown. */
const READS: Record<RuleSetId, readonly Table['set'][]> = {
  us: ['us', 'common'],
  ca: ['ca', 'us', 'common'],
  intl: ['intl', 'common'],
}

/** Of all tables, those that a set reads. */
export const setTables = (set: RuleSetId, all: Readonly<Record<string, Table>>): Readonly<Record<string, Table>> =>
  Object.fromEntries(Object.entries(all).filter(([, table]) => READS[set].includes(table.set)))
