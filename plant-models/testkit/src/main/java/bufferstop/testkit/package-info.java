/**
 * What an author of a plant plug-in tests it with: {@link bufferstop.testkit.PlantContractTest}
 * holds a plant to the plug-in contract, {@link bufferstop.testkit.PlantBench} drives one by the
 * names of its ports, {@link bufferstop.testkit.Opened} tells what a model says to settings, {@link
 * bufferstop.testkit.SettingsOf} turns maps or short texts into checked settings. It reads no file
 * and knows no host.
 */
package bufferstop.testkit;
