import type { Inline as Words } from '@plugstead/book/working'
import { usePreferences } from '../hands/preferences.ts'
import { Inline } from '../marks/inline.tsx'
import { useWords } from '../words/index.ts'
import type { RoomBlock } from '../worker/protocol.ts'
import type { Ways } from './room.tsx'
import { inUs, titleInUs, unitOfTitle, useInline } from './us-inline.ts'
import { Wide } from './wide.tsx'

type TableBlock = Extract<RoomBlock, { readonly k: 'table' }>

/** A table of a sheet. The name at the head of a row hangs its tag; a row that was worked out unfolds its derivation. */
export function Table({ block, ways, name }: { readonly block: TableBlock; readonly ways: Ways; readonly name: string }) {
  const words = useWords()
  const { units } = usePreferences()
  const own = useInline()
  const { columns, rows, leads } = block
  const worked = leads.some((l) => l.working !== undefined)
  const unitOf = columns.map(({ title }) => (units === 'us' ? unitOfTitle(title) : null))
  const cellOf = (cell: Words, i: number): Words => {
    const unit = unitOf[i]
    return unit != null && typeof cell === 'string' ? inUs(cell, unit) : own(cell)
  }
  return (
    <Wide name={name}>
      <table>
        <thead>
          <tr>
            {columns.map(({ title, align }, i) =>
              title === '' ? (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <td key={i} />
              ) : (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <th key={i} scope="col" className={align}>
                  {unitOf[i] == null ? title : titleInUs(title, unitOf[i])}
                </th>
              ),
            )}
            {worked ? (
              <th scope="col">
                <span className="spoken">{words.room.workings}</span>
              </th>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => {
            const { thing, working } = leads[r] ?? {}
            const on = thing !== undefined && thing.id === ways.chosen
            return (
              <tr
                // biome-ignore lint/suspicious/noArrayIndexKey: rows never change places
                key={r}
                className={`${on ? 'dyed-row' : ''}${working === undefined ? '' : ' worked'}`}
                onClick={working === undefined ? undefined : () => ways.unfold(working)}
              >
                {row.map((cell, c) => {
                  const said = <Inline of={cellOf(cell, c)} unfold={ways.unfold} />
                  return (
                    // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                    <td key={c} className={columns[c]?.align}>
                      {c === 0 && thing !== undefined ? (
                        <button
                          type="button"
                          className="names"
                          aria-pressed={on}
                          onClick={(event) => {
                            event.stopPropagation()
                            ways.choose(thing)
                          }}
                        >
                          {said}
                        </button>
                      ) : (
                        said
                      )}
                    </td>
                  )
                })}
                {worked ? (
                  <td>
                    {working === undefined ? null : (
                      <button
                        type="button"
                        className="how"
                        data-working={working}
                        aria-label={words.room.how(working)}
                        onClick={(event) => {
                          event.stopPropagation()
                          ways.unfold(working)
                        }}
                      >
                        <span className="fold">{words.room.howWord}</span>
                      </button>
                    )}
                  </td>
                ) : null}
              </tr>
            )
          })}
        </tbody>
      </table>
    </Wide>
  )
}
