import { readdirSync } from 'node:fs'
import { basename, extname, join } from 'node:path'
import type { Shop } from '@plugstead/engine/assess'
import type { Problem, Result } from '@plugstead/engine/kernel'
import { readPrices } from '@plugstead/engine/parts'
import { readOverlay } from '@plugstead/engine/rules'
import { Unreadable } from './problem.ts'
import { fileText } from './read-file.ts'

/** The invented shop that comes with the program. */
const INVENTED = join(import.meta.dirname, '../../../shop')

/**
 * What belongs to the shop: its price table and its overlays.
 * @throws Unreadable with every problem of every file
 */
export function shopFolder(folder: string = INVENTED): Shop {
  const problems: Problem[] = []
  const read = <T>(path: string, reader: (text: string, file: string) => Result<T>): T | null => {
    try {
      const result = reader(fileText(path), path)
      if (result.ok) return result.value
      problems.push(...result.problems)
    } catch (thrown) {
      if (!(thrown instanceof Unreadable)) throw thrown
      problems.push(...thrown.problems)
    }
    return null
  }
  const prices = documents(join(folder, 'prices'), folder).map((path) => read(path, readPrices))
  const overlays = documents(join(folder, 'overlays'), null).map((path) => [nameOf(path), read(path, readOverlay)] as const)
  const [first] = prices
  if (problems.length > 0 || first === undefined || first === null) throw new Unreadable(...problems)
  return {
    name: basename(folder),
    prices: { currency: first.currency, rows: Object.assign({}, ...prices.map((one) => one?.rows)) },
    overlays: Object.fromEntries(overlays.flatMap(([name, overlay]) => (overlay === null ? [] : [[name, overlay]]))),
  }
}

/** YAML files of a folder, by name. `needed`: the shop that has to have one. */
function documents(folder: string, needed: string | null): readonly string[] {
  let names: readonly string[] = []
  try {
    names = readdirSync(folder).filter((name) => ['.yaml', '.yml'].includes(extname(name)))
  } catch {}
  if (names.length === 0 && needed !== null)
    throw new Unreadable({
      ...{ code: 'shop/no-prices', file: folder, found: 'no price table', wanted: 'at least one YAML file of prices' },
      mend: `Name a shop’s folder with prices in it: --shop DIR. Without --shop the invented one is used.`,
    })
  return names.toSorted().map((name) => join(folder, name))
}

const nameOf = (path: string): string => basename(path, extname(path))
