/**
 * What an author of a plant plug-in tests it with: {@link bufferstop.testkit.PlantContractTest}
 * holds a plant to the plug-in contract, {@link bufferstop.testkit.SettingsOf} turns maps or short
 * texts into checked settings, {@link bufferstop.testkit.SplitMix64} is a random stream. It reads
 * no file and knows no host.
 */
package bufferstop.testkit;
