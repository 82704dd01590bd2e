import { join } from 'node:path'
import { readShop, type Shop } from '@plugstead/engine/assess'
import type { Result } from '@plugstead/engine/kernel'
import { Unreadable } from './problem.ts'
import { fileText } from './read-file.ts'

/** The invented shop that comes with the program. */
const INVENTED = join(import.meta.dirname, '../../../shop')

/** A price table of ten thousand rows. */
const LARGEST_TABLE_BYTES = 2_000_000

/**
 * The shop's folder as it lies on disk.
 * @throws Unreadable with every problem of every file
 */
export function shopFolder(folder: string = INVENTED): Shop {
  const shop = readShop((path) => textIn(folder, path))
  if (shop.ok) return shop.value
  throw new Unreadable(
    ...shop.problems.map((problem) => (problem.file === undefined ? problem : { ...problem, file: join(folder, problem.file) })),
  )
}

function textIn(folder: string, path: string): Result<string> {
  try {
    return { ok: true, value: fileText(join(folder, path), LARGEST_TABLE_BYTES) }
  } catch (thrown) {
    if (thrown instanceof Unreadable) return { ok: false, problems: thrown.problems }
    throw thrown
  }
}
