import type { Scene as Drawn } from '@plugstead/drawings'
import { Scene } from '../six-sides/scene.tsx'
import { mm } from './on-paper.ts'

const NOTHING: ReadonlySet<string> = new Set()

/** A drawing at the size it has on paper. */
export function Drawing({ scene, said }: { readonly scene: Drawn; readonly said?: string }) {
  const [w, h] = scene.sizeMm
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: named by its label, or hidden
    <svg
      viewBox={`0 0 ${w} ${h}`}
      style={{ width: mm(w), height: mm(h) }}
      {...(said === undefined ? { 'aria-hidden': true } : { role: 'img', 'aria-label': said })}
    >
      <Scene view={{ items: scene.items, pxPerMm: 1 }} dyed={NOTHING} />
    </svg>
  )
}
