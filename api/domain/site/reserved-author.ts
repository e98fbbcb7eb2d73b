import type { Issue } from '../outcome.ts'
import { folderAuthor } from './folder-author.ts'

/**
 * What is wrong with a name that a person signs with where it stands for the site's folder; empty: nothing. By that name
 * the store knows what a folder brought, and the next load of the folder would take the record away again.
 */
export const reservedAuthor = (author: string): readonly Issue[] =>
  author.trim().toLowerCase() === folderAuthor
    ? [
        {
          code: 'author-reserved',
          column: 'author',
          value: author,
          message: `"${folderAuthor}" stands for records that came with the site's folder. Write your own name.`,
        },
      ]
    : []
