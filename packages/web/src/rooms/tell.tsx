import { useId, useState } from 'react'
import { useJob } from '../bench.ts'
import { useWords } from '../words/index.ts'

/** Tells what stands at a place of the document: one act. Nothing where the path is no place in it. */
export function Tell({ path: asked, what }: { readonly path: string; readonly what: string }) {
  const { session } = useJob()
  const words = useWords()
  const id = useId()
  const [open, setOpen] = useState(false)
  const [said, setSaid] = useState('')
  const path = documentSteps(asked)
  if (path === null) return null
  if (!open)
    return (
      <button type="button" className="word" aria-label={`${words.tag.tell}: ${what}`} onClick={() => setOpen(true)}>
        {words.tag.tell}
      </button>
    )
  return (
    <form
      className="why-asked"
      onSubmit={(event) => {
        event.preventDefault()
        if (said.trim() === '') return setOpen(false)
        void session
          .act(words.tag.tellAct(what, said.trim()), [{ path, value: plainOf(said.trim()) }])
          .then((kept) => kept && setOpen(false))
      }}
    >
      <label htmlFor={id}>{words.tag.tellWhat(what)}</label>
      {/* biome-ignore lint/a11y/noAutofocus: the field was just asked for, by the word that it replaces */}
      <input id={id} autoFocus value={said} onChange={(event) => setSaid(event.target.value)} />
      <button type="submit" className="word">
        {words.tag.tell}
      </button>
    </form>
  )
}

/** `facts.supply.offers[0].earthing` step by step; null for what is no place in the document. */
function documentSteps(path: string): readonly (string | number)[] | null {
  const steps = path.split('.').flatMap((part): readonly (string | number)[] => {
    const [, name, index] = /^([\w-]+)(?:\[(\d+)\])?$/.exec(part) ?? []
    if (name === undefined) return []
    return index === undefined ? [name] : [name, Number(index)]
  })
  return steps.length < path.split('.').length ? null : steps
}

/** `yes`, `true` and bare numbers are themselves; all else is a text that the document's reader understands or refuses in words. */
function plainOf(said: string): string | number | boolean {
  if (said === 'true' || said === 'yes') return true
  if (said === 'false' || said === 'no') return false
  return /^-?\d+(\.\d+)?$/.test(said) ? Number(said) : said
}
