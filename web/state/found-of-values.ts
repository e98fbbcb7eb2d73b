import { createMemo, createRoot } from 'solid-js'
import { type FoundOf, foundOfValues } from '../derived/verdict-on-value.ts'
import { siteDocument } from './site-document.ts'

/** What persons found of values of the open site. */
export const foundOf = createRoot(() =>
  createMemo((): FoundOf => {
    const document = siteDocument()
    return document ? foundOfValues(document) : () => ''
  }),
)
