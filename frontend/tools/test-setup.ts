/** happy-dom has no IndexedDB; every test file gets an empty one of its own. */
import "fake-indexeddb/auto";
