/** Author of every record that came from a site folder; no person signs so. */
export const folderAuthor = 'site folder'
