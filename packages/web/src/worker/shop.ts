import { readShop, type Shop } from '@plugstead/engine/assess'
import { Fault } from '@plugstead/engine/kernel'

const files = import.meta.glob<string>('../../../../shop/**/*.yaml', { query: '?raw', import: 'default', eager: true })
const HOME = '../../../../shop/'

let read: Shop | null = null

/** The invented shop that comes with the program, as its folder has it. */
export function inventedShop(): Shop {
  if (read !== null) return read
  const shop = readShop((path) => {
    const text = files[HOME + path]
    if (text !== undefined) return { ok: true, value: text }
    return {
      ok: false,
      problems: [{ code: 'file/absent', path, found: 'no file of this name', wanted: 'a file', mend: 'Check the name.' }],
    }
  })
  if (!shop.ok) throw new Fault('web/shop', shop.problems)
  read = shop.value
  return read
}
