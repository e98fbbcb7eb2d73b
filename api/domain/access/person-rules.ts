import { thisServer } from '../audit/audit-entry.ts'
import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { folderAuthor } from '../site/folder-author.ts'
import { commonPasswords } from './common-passwords.ts'

/** Shortest password, in characters. */
export const shortestPassword = 12
const longestPassword = 200

/** As typed on any keyboard: the same characters give the same bytes. */
export const asOnePassword = (typed: string): string => typed.normalize('NFKC')

/**
 * A password is long and not one that is tried first; no rule asks for digits or signs, and none ends by itself.
 * After NIST SP 800-63B (verifiers: length, a list of common values, words of the context; no composition rules).
 */
export function judgePassword(
  password: string,
  person: { name: string; signInName: string },
): readonly Issue[] {
  const issue = (code: string, message: string): Issue => ({ code, column: 'password', message })
  const typed = asOnePassword(password)
  const characters = [...typed].length
  if (characters < shortestPassword)
    return [
      issue(
        'password-short',
        `The password has ${characters} characters; at least ${shortestPassword} are needed. A few words in a row are easy to remember.`,
      ),
    ]
  if (characters > longestPassword)
    return [
      issue(
        'password-long',
        `The password has ${characters} characters; at most ${longestPassword} are taken.`,
      ),
    ]
  const bare = bareWord(typed)
  if (isRepeated(bare) || commonPasswords.some((one) => bare === one || bare === one + one))
    return [
      issue('password-common', 'This password is among those that are tried first. Choose another one.'),
    ]
  const own = [...person.name.split(/\s+/), person.name, person.signInName].map(bareWord)
  // What is left beside the name has to be a password of some length by itself.
  if (own.some((word) => word.length >= 3 && bare.replaceAll(word, '').length < 6))
    return [
      issue('password-own-name', 'This password is hardly more than your own name. Choose another one.'),
    ]
  return []
}

/** Name and sign-in name as they are kept, or what is wrong with them. */
export function judgeNames(person: {
  name: string
  signInName: string
}): Outcome<{ name: string; signInName: string }> {
  const issues: Issue[] = []
  const name = person.name.normalize('NFC').trim().replaceAll(/\s+/g, ' ')
  const signInName = person.signInName.normalize('NFKC').trim().toLowerCase()
  if (name.length < 2 || name.length > 100 || /\p{C}/u.test(name))
    issues.push({
      code: 'name-expected',
      column: 'name',
      value: name,
      message: 'Records are signed with your name: 2 to 100 characters are expected.',
    })
  else if (reservedNames.includes(name.toLowerCase()))
    issues.push({
      code: 'name-reserved',
      column: 'name',
      value: name,
      message: `"${name}" stands for something else in the records. Write your own name.`,
    })
  if (!/^[\p{L}\p{N}][\p{L}\p{N}.@_+-]{1,99}$/u.test(signInName))
    issues.push({
      code: 'sign-in-name-expected',
      column: 'signInName',
      value: signInName,
      message:
        'The name to sign in with has 2 to 100 letters, digits and . @ _ + - and begins with a letter or digit.',
    })
  return issues.length > 0 ? reject(...issues) : accept({ name, signInName })
}

const reservedNames = [folderAuthor, thisServer, 'page on this machine', 'http with token']

const bareWord = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '')

/** One or two characters, or a rising or falling row of them, all along. */
function isRepeated(word: string): boolean {
  const codes = [...word].map((one) => one.codePointAt(0) ?? 0)
  if (new Set(codes).size <= 2) return true
  const steps = new Set(codes.slice(1).map((code, i) => code - (codes[i] ?? 0)))
  return steps.size === 1
}
