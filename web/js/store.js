// Keeps the drawing in the browser's own database as one draws.

const databaseName = 'sheetsprite';
const shelf = 'work';

/** One promise for the whole page: the database, opened once. */
class Store {
  /** @type {Promise<IDBDatabase> | null} */
  #opened = null;

  /** @returns {Promise<IDBDatabase>} */
  #open() {
    this.#opened ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(databaseName, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(shelf);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    return this.#opened;
  }

  /** @param {string} key
   * @returns {Promise<any>} */
  async get(key) {
    const db = await this.#open();
    return new Promise((resolve, reject) => {
      const request = db.transaction(shelf).objectStore(shelf).get(key);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  }

  /** Resolved when all of the values are on the disk, together.
   * @param {Record<string, any>} values
   * @returns {Promise<void>} */
  async put(values) {
    const db = await this.#open();
    return new Promise((resolve, reject) => {
      const change = db.transaction(shelf, 'readwrite', { durability: 'strict' });
      for (const [key, value] of Object.entries(values)) change.objectStore(shelf).put(value, key);
      change.oncomplete = () => resolve();
      change.onerror = () => reject(change.error);
      change.onabort = () => reject(change.error);
    });
  }
}

export const store = new Store();
