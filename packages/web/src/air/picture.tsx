import { type ReactNode, useId } from 'react'
import { Wide } from '../rooms/wide.tsx'
import { Hatches } from '../six-sides/hatches.tsx'
import { Scene } from '../six-sides/scene.tsx'
import type { RoomDrawing } from '../worker/protocol.ts'

const NOTHING: ReadonlySet<string> = new Set()

/** A picture that is read as a whole; `children` are drawn over it, `over` lies over it and can be touched. */
export function Picture({
  view,
  children,
  over,
  tried = false,
  wide,
}: {
  readonly view: RoomDrawing
  readonly children?: ReactNode
  readonly over?: ReactNode
  /** Of what is being tried, not of what is planned. */
  readonly tried?: boolean
  /** Its name, where it may be wider than its room: it is then moved under the finger. */
  readonly wide?: string
}) {
  const name = useId()
  const drawing = (
    <div className={tried ? 'drawing air-tried' : 'drawing'} style={{ width: view.widthPx, height: view.heightPx }}>
      <svg width={view.widthPx} height={view.heightPx} role="img" aria-labelledby={name}>
        <title id={name}>{view.said}</title>
        <Hatches />
        <Scene view={view} dyed={NOTHING} />
        {children}
      </svg>
      {over}
    </div>
  )
  return wide === undefined ? drawing : <Wide name={wide}>{drawing}</Wide>
}
