import type { ReactNode } from 'react'

/** What may be wider than its room: it is then moved under the finger, or by keys. */
export function Wide({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a table is no field to fill in
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what is scrolled is scrolled by keys too
    <div role="group" className="wide-table" tabIndex={0} aria-label={name}>
      {children}
    </div>
  )
}
