import { useState } from 'react'
import { useAsked } from '../ask.ts'
import { useBench } from '../bench.ts'
import { saveAsFile } from '../files.ts'
import { useWords } from '../words/index.ts'
import type { FileGroup, FileLine } from '../worker/protocol.ts'

const GROUPS: readonly FileGroup[] = ['lists', 'dates', 'answers', 'drawings']

const TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  json: 'application/json',
  ics: 'text/calendar',
  svg: 'image/svg+xml',
  dxf: 'image/vnd.dxf',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  glb: 'model/gltf-binary',
}

/** Every file that the terminal writes of the job, to be taken out one by one. */
export function Files() {
  const words = useWords()
  const files = useAsked('files', {})
  const [open, setOpen] = useState(false)
  if (!files) return null
  return (
    <section className="files" aria-label={words.paper.files}>
      <h3>{words.paper.files}</h3>
      {GROUPS.map((group) => {
        const own = files.filter((file) => file.group === group)
        if (own.length === 0) return null
        const folds = group === 'drawings'
        return (
          <section key={group}>
            <h4>
              {folds ? (
                <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
                  <span className="fold">
                    {words.paper.groups[group]}, {own.length}
                  </span>
                </button>
              ) : (
                words.paper.groups[group]
              )}
            </h4>
            {folds && !open ? null : (
              <ul>
                {own.map((file) => (
                  <Line key={file.kind} file={file} />
                ))}
              </ul>
            )}
          </section>
        )
      })}
    </section>
  )
}

function Line({ file }: { readonly file: FileLine }) {
  const { engine } = useBench()
  const words = useWords()
  const save = async (): Promise<void> => {
    const data = await engine.call('file', { kind: file.kind })
    if (data === null) return
    const type = TYPES[file.kind.split('.').at(-1) ?? ''] ?? 'application/octet-stream'
    saveAsFile(file.name, typeof data === 'string' ? data : new Uint8Array(data), type)
  }
  return (
    <li>
      <button type="button" data-file={file.kind} onClick={() => void save()}>
        <span className="fold">{file.name}</span> <small>{file.title ?? words.paper.kinds[file.kind] ?? ''}</small>
      </button>
    </li>
  )
}
