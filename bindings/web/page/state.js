// SPDX-License-Identifier: MIT
// What the page knows at the moment; all its parts share it, and tests read it.

const app = {
  pond: null, snapshot: null,		// the description; as it was opened, as JSON
  files: {}, samples: null,		// kind -> { path, bytes }
  fresh: true, sample: false,		// begun by the questions here; the sample pond
  form: null, questions: null, pondForm: null, sheet: null,
  chapter: "water", options: {}, answers: {}, status: {}, timing: {},	// of chapters
  due: new Set(),			// chapters older than the entries
  timer: 0,				// until the open one is asked
  climate: "",				// its name, in the place of a weather file
  weatherState: {},			// how a weather file is read: option -> text or true
};

const $ = (id) => document.getElementById(id);
