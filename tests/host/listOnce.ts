/** Lists a book once, says how many jobs it holds, and has nothing else to do. Arguments: the book's folder, the user's own. */
import { createBookPlace } from '../../src-main/services/book/bookPlace.ts'
import { createBook } from '../../src-main/services/book/listBook.ts'

const [folder, userData] = process.argv.slice(2) as [string, string]
const { files } = await createBook(userData, createBookPlace(userData, folder)).whole(folder)
console.log(files.filter((f) => f.summary).length)
