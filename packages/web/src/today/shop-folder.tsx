import type { Problem } from '@plugstead/engine/kernel'
import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { useWords } from '../words/index.ts'
import type { ShopFolder } from '../worker/protocol.ts'

/** Whose prices, models and yard all jobs are worked out with: the invented shop, or a folder of the person's own. */
export function ShopLine({
  changed,
  refused,
}: {
  readonly changed: () => void
  readonly refused: (problems: readonly Problem[]) => void
}) {
  const { engine, judge, dayEngine, jobs } = useBench()
  const words = useWords()
  const [own, setOwn] = useState<string | null>(null)
  useEffect(() => {
    void jobs.shop().then(
      (folder) => setOwn(folder?.name ?? null),
      () => {},
    )
  }, [jobs])
  const serve = async (folder: ShopFolder | null) => {
    if (engine.busy) engine.stop()
    const read = await engine.serve(folder)
    if (!read.ok) {
      // What served before serves on: nothing was changed.
      await engine.serve((await jobs.shop()) ?? null)
      refused(read.problems)
      return
    }
    await jobs.keepShop(folder)
    // Whatever it reads is of the shop before.
    for (const one of [dayEngine, judge]) {
      one.stop()
      void one.serve(folder).catch(() => {})
    }
    setOwn(folder?.name ?? null)
    changed()
  }
  return (
    <>
      <h2>{words.today.shop}</h2>
      <p>{own === null ? words.today.invented : words.today.own(own)}</p>
      <label className="take">
        <span className="fold">{words.today.openShop}</span>
        <input
          type="file"
          ref={(input) => input?.setAttribute('webkitdirectory', '')}
          onChange={(event) => {
            const { files } = event.target
            if (files !== null && files.length > 0) void folderOf([...files]).then(serve)
          }}
        />
      </label>
      {own === null ? null : (
        <button type="button" className="take" onClick={() => void serve(null)}>
          <span className="fold">{words.today.backToInvented}</span>
        </button>
      )}
    </>
  )
}

/** Sheets of the folder by their path in it; what is no sheet is left where it is. */
async function folderOf(files: readonly File[]): Promise<ShopFolder> {
  const sheets = files.filter((file) => /\.ya?ml$/i.test(file.name))
  const read = await Promise.all(
    sheets.map(async (file) => [inside(file.webkitRelativePath), new Uint8Array(await file.arrayBuffer())] as const),
  )
  return { name: files[0]?.webkitRelativePath.split('/')[0] || 'shop', files: Object.fromEntries(read) }
}

const inside = (path: string): string => path.slice(path.indexOf('/') + 1)
