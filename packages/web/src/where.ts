import { useSyncExternalStore } from 'react'
import { folded, hashOf, type Route, routeOf } from './route.ts'

/** Where the person is, from the address. */
export const useRoute = (): Route => {
  const hash = useSyncExternalStore(subscribe, () => window.location.hash)
  return routeOf(hash)
}

export function goTo(route: Route): void {
  window.location.hash = hashOf(route)
}

/** As `goTo`, in place: choosing another thing is not a step back that a person wants. */
export function turnTo(route: Route): void {
  window.history.replaceState(null, '', hashOf(route))
  window.dispatchEvent(new HashChangeEvent('hashchange'))
}

/** One level back from where the person is now, however far the page is behind. */
export const fold = (): void => goTo(folded(routeOf(window.location.hash)))

function subscribe(listener: () => void): () => void {
  window.addEventListener('hashchange', listener)
  return () => window.removeEventListener('hashchange', listener)
}
