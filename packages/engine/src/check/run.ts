import { compareValues } from './compare.ts'
import type { Adapter, CaseFile, CheckedCase, PublishedCase } from './types.ts'

/**
 * Runs every published case against the engine. One that cannot be run stays in the list with its reason and counts as not ok. `file` gives the
 * text of the files that some cases name: the engine itself reads none.
 */
export function runCases(
  cases: readonly PublishedCase[],
  adapters: Readonly<Record<string, Adapter>>,
  file: CaseFile = notAtHand,
): readonly CheckedCase[] {
  return cases.map((one) => runCase(one, adapters[one.id], file))
}

const notAtHand: CaseFile = (name) => {
  throw new Error(`the file ${name} is not at hand`)
}

function runCase(one: PublishedCase, adapter: Adapter | undefined, file: CaseFile): CheckedCase {
  const { id, topic, source, provenance } = one
  const about = {
    ...{ id, topic, source, provenance },
    ...(one.address === undefined ? {} : { address: one.address }),
    ...(one.note === undefined ? {} : { note: one.note }),
  }
  if (adapter === undefined) return { ...about, ok: false, reason: 'nothing in the engine answers this case yet', values: [] }
  let ours: Readonly<Record<string, unknown>>
  try {
    ours = adapter(one.given as never, file)
  } catch (thrown) {
    return { ...about, ok: false, reason: thrown instanceof Error ? thrown.message : String(thrown), values: [] }
  }
  const values = compareValues(ours, one.expect, one.tolerance)
  return { ...about, ok: values.length > 0 && values.every((value) => value.ok), values }
}
