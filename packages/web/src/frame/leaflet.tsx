import { type ReactNode, useEffect, useRef } from 'react'
import { useWords } from '../words/index.ts'

/** A leaf that unfolds from a word of the header. Esc folds it. */
export function Leaflet({
  title,
  done,
  children,
}: {
  readonly title: string
  readonly done: () => void
  readonly children: ReactNode
}) {
  const words = useWords()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    dialog.current?.showModal()
  }, [])
  return (
    <dialog ref={dialog} className="leaflet" aria-label={title} onClose={done}>
      <h2>{title}</h2>
      {children}
      <button type="button" className="one-act" onClick={() => dialog.current?.close()}>
        {words.hands.done}
      </button>
    </dialog>
  )
}
