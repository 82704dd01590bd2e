import { createContext, useContext } from 'react'
import { en, type Words } from './en.ts'

const Language = createContext<Words>(en)

export const useWords = (): Words => useContext(Language)
