
namespace WaterScript.Language;

/// <summary>A currency.</summary>
/// <param name="Code">Three letters, ISO 4217.</param>
/// <param name="Digits">Digits after the point of its minor unit: 2 for cents.</param>
internal sealed record Currency(string Code, int Digits)
{
    private const int Usual = 2;

    /// <summary>Currencies in use and the digits of their minor units (ISO 4217:2015, table A.1; from memory); two where nothing is said.</summary>
    private static readonly Dictionary<string, Currency> ByCode = All().ToDictionary(currency => currency.Code);

    /// <summary>The codes.</summary>
    public static IReadOnlyCollection<string> Codes => ByCode.Keys;

    /// <summary>The currency of a code, or null.</summary>
    public static Currency? Find(string code) => ByCode.GetValueOrDefault(code);

    private static IEnumerable<Currency> All()
    {
        const string two =
            "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP CRC CUP CVE CZK DKK DOP DZD " +
            "EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL " +
            "MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR " +
            "SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VES WST XCD YER ZAR ZMW";
        const string none = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF";
        const string three = "BHD IQD JOD KWD LYD OMR TND";
        return Of(two, Usual).Concat(Of(none, 0)).Concat(Of(three, Usual + 1));
    }

    private static IEnumerable<Currency> Of(string codes, int digits) => codes.Split(' ').Select(code => new Currency(code, digits));
}
