import { useSyncExternalStore } from 'react'
import { type Glass, glassFrom, gloveTargetPx } from './glass.ts'

/** What a person set for this device, not for a job. */
export interface Preferences {
  readonly theme: 'system' | 'light' | 'sunlight' | 'dark'
  readonly units: 'metric' | 'us'
  readonly gloves: boolean
  /** How long a millimetre is on this glass; null: nobody has laid a card on it, and usual screens are assumed. */
  readonly glass: Glass | null
  /** Keys without ctrl: pin, find, next that does not hold. */
  readonly letterKeys: boolean
}

export const USUAL: Preferences = { theme: 'system', units: 'metric', gloves: false, glass: null, letterKeys: true }
const KEY = 'plugstead.hands'

/** What was kept, where it still means something; else the usual. */
export function preferencesFrom(kept: string | null): Preferences {
  let read: Partial<Record<keyof Preferences, unknown>>
  try {
    read = JSON.parse(kept ?? '{}') ?? {}
  } catch {
    return USUAL
  }
  const { theme, units, gloves, glass, letterKeys } = read
  return {
    theme: theme === 'light' || theme === 'sunlight' || theme === 'dark' ? theme : USUAL.theme,
    units: units === 'us' ? 'us' : USUAL.units,
    gloves: gloves === true,
    glass: glassFrom(glass),
    letterKeys: letterKeys !== false,
  }
}

let now: Preferences | null = null
const listeners = new Set<() => void>()

export function preferences(): Preferences {
  now ??= preferencesFrom(stored())
  return now
}

export function setPreferences(part: Partial<Preferences>): void {
  now = { ...preferences(), ...part }
  try {
    localStorage.setItem(KEY, JSON.stringify(now))
  } catch {
    // A device that will not store says so in the page's strip; the choice holds for this tab.
  }
  dress()
  for (const listener of listeners) listener()
}

/** Puts theme and gloves on the page, before anything is drawn and when it is zoomed. */
export function dress(): void {
  const { theme, gloves, glass } = preferences()
  const root = document.documentElement
  if (theme === 'system') delete root.dataset.theme
  else root.dataset.theme = theme
  if (gloves) root.dataset.gloves = 'on'
  else delete root.dataset.gloves
  if (gloves && glass !== null) root.style.setProperty('--target', `${gloveTargetPx(glass, window.devicePixelRatio)}px`)
  else root.style.removeProperty('--target')
}

export const usePreferences = (): Preferences => useSyncExternalStore(subscribe, preferences)

function subscribe(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

function stored(): string | null {
  try {
    return localStorage.getItem(KEY)
  } catch {
    return null
  }
}
