import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { DayAnswer } from '../worker/protocol.ts'

/** What an answer rests on: another text, day, shop or program, and it is asked again. */
export interface DayKey {
  readonly text: string
  readonly today: string
  readonly shop: string
  readonly program: string
}

interface Kept extends DayKey {
  readonly id: string
  readonly answer: DayAnswer
}

interface Shelf extends DBSchema {
  days: { key: string; value: Kept }
}

/** Answers of the day sheet, kept from one opening of it to the next. They can always be worked out again. */
export interface Days {
  get(id: string, key: DayKey): Promise<DayAnswer | null>
  put(id: string, key: DayKey, answer: DayAnswer): Promise<void>
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
      const same = kept?.text === key.text && kept.today === key.today && kept.shop === key.shop && kept.program === key.program
      return same ? kept.answer : null
    },
    put: async (id, key, answer) => {
      await (await shelf())?.put('days', { id, ...key, answer })
    },
  }
}
