import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { DayAnswer, Planned, ShopFolder } from '../worker/protocol.ts'

/** What an answer rests on: another text, day, shop or program, and it is asked again. */
export interface DayKey {
  readonly text: string
  readonly today: string
  readonly shop: string
  readonly program: string
}

export interface KeptDay {
  readonly answer: DayAnswer
  readonly planned: Planned
}

interface Kept extends DayKey, KeptDay {
  readonly id: string
}

interface Shelf extends DBSchema {
  days: { key: string; value: Kept }
}

/** Answers of the day sheet, kept from one opening of it to the next. They can always be worked out again. */
export interface Days {
  /** `answer` is null where it is of another day: then what was planned is judged for this one. */
  get(id: string, key: DayKey): Promise<{ readonly answer: DayAnswer | null; readonly planned: Planned } | null>
  put(id: string, key: DayKey, day: KeptDay): Promise<void>
}

export function openDays(): Days {
  let db: Promise<IDBPDatabase<Shelf> | null> | null = null
  const shelf = (): Promise<IDBPDatabase<Shelf> | null> => {
    db ??= Promise.resolve()
      .then(() =>
        openDB<Shelf>('plugstead-days', 1, { upgrade: (fresh) => void fresh.createObjectStore('days', { keyPath: 'id' }) }),
      )
      .catch(() => null)
    return db
  }
  return {
    get: async (id, key) => {
      const kept = await (await shelf())?.get('days', id)
      const same = kept?.text === key.text && kept.shop === key.shop && kept.program === key.program
      return same ? { answer: kept.today === key.today ? kept.answer : null, planned: kept.planned } : null
    },
    put: async (id, key, day) => {
      await (await shelf())?.put('days', { id, ...key, ...day })
    },
  }
}

/** Another price table under the same name is another shop. FNV-1a, 32 bits, over names and bytes. */
export function shopKey(folder: ShopFolder | undefined): string {
  if (folder === undefined) return ''
  let hash = 0x811c9dc5
  const add = (byte: number): void => {
    hash = Math.imul(hash ^ byte, 0x01000193) >>> 0
  }
  for (const path of Object.keys(folder.files).sort()) {
    for (const byte of new TextEncoder().encode(`${path}\0`)) add(byte)
    for (const byte of folder.files[path]!) add(byte)
  }
  return `${folder.name} ${hash.toString(16)}`
}
