import { useWords } from '../words/index.ts'
import { Leaflet } from './leaflet.tsx'

export function Keys({ done }: { readonly done: () => void }) {
  const words = useWords()
  return (
    <Leaflet title={words.keys.title} done={done}>
      <table>
        <tbody>
          {words.keys.rows.map(([key, what]) => (
            <tr key={key}>
              <th scope="row">{key}</th>
              <td>{what}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Leaflet>
  )
}
