import { readShop, type Shop } from '@plugstead/engine/assess'
import { checkBytes } from '@plugstead/engine/job'
import { ok, type Problem, type Result } from '@plugstead/engine/kernel'
import type { ShopFolder } from './protocol.ts'

const invented = import.meta.glob<string>('../../../../shop/**/*.yaml', { query: '?raw', import: 'default', eager: true })
const HOME = '../../../../shop/'

/** A price table of ten thousand rows. */
const LARGEST_TABLE_BYTES = 2_000_000

let folder: ShopFolder | null = null
let read: Result<Shop> | null = null

/** Another shop; null: the invented one that comes with the program. Gives its name. */
export function setShop(given: ShopFolder | null): Result<string> {
  folder = given
  read = null
  const shop = shopNow()
  return shop.ok ? ok(shop.value.name) : shop
}

/** The shop that all jobs are worked out for. */
export function shopNow(): Result<Shop> {
  read ??= folder === null ? readShop((path) => textOr(invented[HOME + path], path)) : shopIn(folder)
  return read
}

function shopIn({ name, files }: ShopFolder): Result<Shop> {
  const shop = readShop((path) => {
    const bytes = files[path]
    return bytes === undefined ? textOr(undefined, path) : checkBytes(bytes, LARGEST_TABLE_BYTES)
  })
  if (shop.ok) return shop
  const inFolder = (problem: Problem): Problem =>
    problem.file === undefined ? problem : { ...problem, file: `${name}/${problem.file}` }
  return { ok: false, problems: shop.problems.map(inFolder) }
}

const textOr = (text: string | undefined, path: string): Result<string> =>
  text !== undefined
    ? ok(text)
    : {
        ok: false,
        problems: [{ code: 'file/absent', file: path, found: 'no file of this name', wanted: 'a file', mend: 'Check the name.' }],
      }
