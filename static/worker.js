// Starts the program once more beside the page, for long work. The page hands over what it has compiled already.
import load from './%APP_JS%';

onmessage = async ({ data }) => {
  onmessage = null;
  try {
    await load(data === undefined ? undefined : { module_or_path: data });
  } catch (error) {
    // Outside the promise, so that the page hears of it as of any other fault.
    setTimeout(() => { throw error; });
  }
};
