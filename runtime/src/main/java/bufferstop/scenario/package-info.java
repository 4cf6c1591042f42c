/**
 * Runs a scenario against a {@link bufferstop.scenario.Target}: stimuli in, expectations judged
 * online over the image after every scan, with margins. Gives a {@link
 * bufferstop.scenario.ScenarioResult}. Never knows what the target is made of, never prints.
 */
package bufferstop.scenario;
